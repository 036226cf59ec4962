#include "evenlit/placing/framing.hpp"

#include "ceilings.hpp"

using namespace evenlit;

namespace {

using Eigen::Vector2d;

Vector2d inches(double x, double y) { return k_inch * Vector2d(x, y); }

void check_corners(const Strip& strip, const Polygon& corners) {
  REQUIRE(strip.corners_m.size() == corners.size());
  for (std::size_t i = 0; i < corners.size(); ++i) CHECK((strip.corners_m[i] - corners[i]).norm() < 1e-12);
}

}  // namespace

TEST_CASE("framing: joists from wall to wall, the first one where it was measured", "[placing][exact]") {
  const Framing frame = framing(job_from(bay_job("", can_at(32, 80), "24in", "10in")));
  // 10, 34 ... 226 in; the west wall runs south.
  REQUIRE(frame.strips.size() == 10);
  check_corners(frame.strips[0], {inches(9.25, 160), inches(9.25, 0), inches(10.75, 0), inches(10.75, 160)});
  check_corners(frame.strips[9], {inches(225.25, 160), inches(225.25, 0), inches(226.75, 0), inches(226.75, 160)});
  for (const Strip& strip : frame.strips) CHECK(signed_area(strip.corners_m) > 0);
  REQUIRE(frame.runs.size() == 1);
  CHECK(frame.runs[0].along == Vector2d(0, -1));
}

TEST_CASE("framing: a joist whose edge reaches into the room counts", "[placing][exact]") {
  // The last one's centre is 1/2 in beyond the east wall.
  CHECK(framing(job_from(bay_job("", can_at(32, 80), "24in", "0.5in"))).strips.size() == 11);
}

TEST_CASE("framing: joists of an area end where their centre lines leave it", "[placing][exact]") {
  const std::string area =
      "area = { corners = [[0, 0], [\"100in\", 0], [\"100in\", \"100in\"], [\"60in\", \"100in\"], "
      "[\"60in\", \"40in\"], [\"40in\", \"40in\"], [\"40in\", \"100in\"], [0, \"100in\"]] }\n";
  std::string text = bay_job("", can_at(32, 80), "20in", "10in");
  text.insert(text.find("[can_types"), area);
  text.replace(text.find("\"west\""), 6, "\"south\"");
  const Framing frame = framing(job_from(text));
  // At 10 and 30 in across the whole area; at 50, 70 and 90 in on both sides of the notch.
  REQUIRE(frame.strips.size() == 8);
  check_corners(frame.strips[1], {inches(0, 29.25), inches(100, 29.25), inches(100, 30.75), inches(0, 30.75)});
  check_corners(frame.strips[2], {inches(0, 49.25), inches(40, 49.25), inches(40, 50.75), inches(0, 50.75)});
  check_corners(frame.strips[3], {inches(60, 49.25), inches(100, 49.25), inches(100, 50.75), inches(60, 50.75)});
  CHECK(run_at(frame, inches(20, 80)) == 0);
  CHECK_FALSE(run_at(frame, inches(50, 80)));
}

TEST_CASE("framing: single members lie along a wall or from point to point", "[placing][exact]") {
  const Framing frame =
      framing(job_from("[room]\nwidth = \"240in\"\ndepth = \"160in\"\nceiling = \"8ft\"\n"
                       "[[members]]\nname = \"beam\"\nfrom = { north = \"60in\" }\nthickness = \"4in\"\n"
                       "[[members]]\nname = \"brace\"\nstart = { west = \"10in\", south = \"10in\" }\n"
                       "end = { west = \"40in\", south = \"50in\" }\nthickness = \"5in\"\n"
                       "[can_types.six]\nbeam = { lumens = 900, angle = 60 }\n" +
                       can_at(32, 80)));
  REQUIRE(frame.strips.size() == 2);
  CHECK(frame.runs.empty());
  check_corners(frame.strips[0], {inches(240, 102), inches(0, 102), inches(0, 98), inches(240, 98)});
  // Along (3, 4) / 5, so its left is (-4, 3) / 5: 2-1/2 in make (-2, 1.5) in.
  check_corners(frame.strips[1], {inches(12, 8.5), inches(42, 48.5), inches(38, 51.5), inches(8, 11.5)});
  CHECK(frame.strips[1].name == "brace");
}
