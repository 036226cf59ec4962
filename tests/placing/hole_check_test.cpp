#include "evenlit/placing/hole_check.hpp"

#include <cmath>

#include "ceilings.hpp"

using namespace evenlit;

namespace {

using Eigen::Vector2d;

Vector2d inches(double x, double y) { return k_inch * Vector2d(x, y); }

const std::string k_ic = "rating = \"IC\"";

}  // namespace

TEST_CASE("hole check: a can in the middle of its bay", "[placing][exact]") {
  const HoleCheck check = hole_check(job_from(bay_job(k_ic, can_at(32, 80))));
  REQUIRE(check.holes.size() == 1);
  const CanHole& hole = check.holes[0];
  CHECK(hole.can == 0);
  CHECK((hole.centre_m - inches(32, 80)).norm() < 1e-12);
  CHECK(hole.hits.empty());
  CHECK(hole.moves.empty());
  CHECK_FALSE(hole.nearest_m);
  // Half of 14-1/2 in to either joist, half of 6-3/8 in of it the hole.
  for (const SideGap& side : hole.sides) {
    CHECK(std::abs(side.toward.x()) == 1);
    CHECK(side.gap_m / k_inch == Approx(7.25 - 3.1875));
    CHECK(side.name == "joist");
  }
  CHECK(hole.sides[0].toward == Vector2d(-hole.sides[1].toward));
  CHECK(hole.probe_clear_m / k_inch == Approx(7.25));
  CHECK(hole.probe_needed_m / k_inch == Approx(3.1875));
}

TEST_CASE("hole check: a can on a joist is told by how much, and where it fits", "[placing][exact]") {
  // The joist at 40 in runs from 39-1/4 in; the hole's edge is at 37 + 3-3/16 in.
  const HoleCheck check = hole_check(job_from(bay_job(k_ic, can_at(37, 80))));
  const CanHole& hole = check.holes.at(0);
  REQUIRE(hole.hits.size() == 1);
  CHECK(hole.hits[0].name == "joist");
  CHECK(hole.hits[0].overlap_m / k_inch == Approx(0.9375));
  CHECK(hit_text(hole.hits[0], Units::imperial) == "its hole is 15/16\" too near to the joist");
  const SideGap& east = hole.sides[0].toward.x() > 0 ? hole.sides[0] : hole.sides[1];
  CHECK(east.gap_m / k_inch == Approx(-0.9375));
  CHECK(hole.probe_clear_m / k_inch == Approx(2.25));

  // Straight west into its own bay, whose play is 8-1/8 in; straight east into the next, from 43-15/16 in on; nowhere
  // along the joist.
  REQUIRE(hole.moves.size() == 2);
  for (const Move& move : hole.moves) {
    const bool is_west = move.toward.x() < 0;
    const double slack_in = k_touch_m / k_inch;
    CHECK(move.distance_m[0] / k_inch == Approx(is_west ? 0.9375 : 40.75 + 3.1875 - 37).margin(slack_in));
    CHECK(move.distance_m[1] / k_inch ==
          Approx(is_west ? 0.9375 + 8.125 : 40.75 + 3.1875 - 37 + 8.125).margin(slack_in));
  }
  REQUIRE(hole.nearest_m);
  CHECK((*hole.nearest_m - inches(36.0625, 80)).norm() < 2 * k_touch_m);
}

TEST_CASE("hole check: 1/2 in from wood unless a can is rated IC", "[placing][formula]") {
  const auto hits = [](const std::string& more, double west_in) {
    return hole_check(job_from(bay_job(more, can_at(west_in, 80)))).holes.at(0).hits.size();
  };
  // The joist's edge is at 39-1/4 in: touched at 36-1/16 in.
  CHECK(hits(k_ic, 36.0625) == 0);
  CHECK(hits("rating = \"non-IC\"", 36.0625) == 1);
  CHECK(hits("", 36.0625) == 1);
  CHECK(hits("rating = \"non-IC\"", 35.5625) == 0);
  CHECK(hits("rating = \"non-IC\"", 35.563) == 1);
  // With a housing that is narrower than its hole it is the housing that keeps the distance; the trim may touch.
  CHECK(hits("housing = { width = \"5-1/4in\", length = \"5-1/4in\" }", 36.0625) == 0);
}

TEST_CASE("hole check: cans keep clear of each other, and of walls", "[placing][exact]") {
  const HoleCheck check = hole_check(job_from(bay_job(k_ic, can_at(32, 80) + can_at(32, 86) + can_at(32, 2))));
  REQUIRE(check.holes.size() == 3);
  CHECK(check.holes[0].hits.at(0).name == "can 2");
  CHECK(check.holes[1].hits.at(0).name == "can 1");
  CHECK(check.holes[0].hits.at(0).overlap_m / k_inch == Approx(0.375));
  CHECK(hit_text(check.holes[0].hits[0], Units::imperial) == "its hole is 3/8\" too near to can 2");
  CHECK(check.holes[2].hits.at(0).name == "south");
  CHECK(hit_text(check.holes[2].hits[0], Units::metric) == "its hole is 0.03 m too near to the south wall");
}

TEST_CASE("hole check: housings keep clear of each other, and one turns where that helps", "[placing][exact]") {
  // Along the bay they are 13 in long, so that two need 13 in from centre to centre; across it they are 7 in wide, and
  // 13 in fit between joists.
  const auto misfits = [](const std::string& lies, double south_in) {
    const std::string type = k_ic + "\nhousing = { width = \"7in\", length = \"13in\", lies = \"" + lies + "\" }";
    const auto check = hole_check(job_from(bay_job(type, can_at(32, 60) + can_at(32, south_in))));
    return check.holes[0].hits.size() + check.holes[1].hits.size();
  };
  CHECK(misfits("along", 73) == 0);
  CHECK(misfits("along", 72.9) == 2);
  CHECK(misfits("across", 67) == 0);
  CHECK(misfits("across", 66.9) == 2);
  CHECK(misfits("either", 72.9) == 0);
}

TEST_CASE("hole check: what hangs, stands lower or has no hole is not checked", "[placing][exact]") {
  const std::string strip = "[can_types.strip]\nbeam = { lumens = 300, angle = 90 }\n";
  const HoleCheck check = hole_check(job_from(bay_job(
      k_ic, strip + can_at(32, 80) + can_at(40, 80) + "drop = \"1ft\"\n" + can_at(40, 40) + "height = \"4ft\"\n" +
                "\n[[cans]]\ntype = \"strip\"\nfrom = { west = \"40in\", south = \"90in\" }\n")));
  CHECK(check.holes.size() == 1);
  CHECK(check.without_hole == std::vector<int>{1, 2, 3});
}

TEST_CASE("hole check: no cut through a box that reaches the ceiling", "[placing][exact]") {
  const auto box = [](const std::string& top) {
    return "[[obstructions]]\nname = \"soffit\"\nfrom = { west = \"34in\", south = \"70in\" }\nwidth = \"40in\"\n"
           "depth = \"30in\"\nbottom = \"80in\"\ntop = \"" +
           top + "\"\n";
  };
  const auto hits = [&](const std::string& top) {
    return hole_check(job_from(bay_job(k_ic, box(top) + can_at(32, 80)))).holes.at(0).hits;
  };
  CHECK(hits("90in").empty());
  REQUIRE(hits("96in").size() == 1);
  CHECK(hits("96in")[0].kind == Obstacle::Kind::box);
  CHECK(hits("96in")[0].overlap_m / k_inch == Approx(1.1875));
}

TEST_CASE("hole check: where nothing fits it tells which width is short", "[placing][exact]") {
  const CanHole bay =
      hole_check(job_from(bay_job("housing = { width = \"14in\", length = \"16in\" }", can_at(32, 80)))).holes.at(0);
  CHECK_FALSE(bay.nearest_m);
  CHECK(bay.moves.empty());
  REQUIRE(bay.shortfalls.size() == 1);
  CHECK(bay.shortfalls[0].what == Shortfall::What::bay);
  CHECK(bay.shortfalls[0].has_m / k_inch == Approx(14.5));
  CHECK(bay.shortfalls[0].needs_m / k_inch == Approx(15));

  const std::string closet =
      "[room]\nwidth = \"30in\"\ndepth = \"10in\"\nceiling = \"8ft\"\n[can_types.six]\nbeam = { lumens = 900, angle = "
      "60 "
      "}\nhole = \"6in\"\nrating = \"IC\"\nhousing = { width = \"11in\", length = \"12in\" }\n";
  const CanHole room = hole_check(job_from(closet + can_at(15, 5))).holes.at(0);
  CHECK_FALSE(room.nearest_m);
  // Without joists, along is along the south wall: 30 in are enough; across it 10 in are not.
  REQUIRE(room.shortfalls.size() == 1);
  CHECK(room.shortfalls[0].has_m / k_inch == Approx(10));
  CHECK(room.shortfalls[0].needs_m / k_inch == Approx(11));
}

TEST_CASE("hole check: warnings come only where the ceiling is known", "[placing][exact]") {
  const std::string bare =
      "[room]\nwidth = \"240in\"\ndepth = \"160in\"\nceiling = \"8ft\"\n[can_types.six]\nbeam = { lumens = 900, angle "
      "= 60 "
      "}\nhole = \"6in\"\n" +
      can_at(2, 80);
  CHECK(hole_warnings(job_from(bare)).empty());
  const Problems warnings = hole_warnings(job_from(bay_job(k_ic, can_at(32, 80) + can_at(37, 40))));
  REQUIRE(warnings.size() == 1);
  CHECK(warnings[0].what == "can 2 does not fit: its hole is 15/16\" too near to the joist");
  CHECK(warnings[0].place.line == 18);
}
