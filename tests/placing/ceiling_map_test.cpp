#include "evenlit/placing/ceiling_map.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "ceilings.hpp"
#include "mapped.hpp"
#include "random_ceilings.hpp"

using namespace evenlit;

namespace {

using Eigen::Vector2d;

Vector2d inches(double x, double y) { return k_inch * Vector2d(x, y); }

bool has_bent_keep_out(const Job& job) {
  return std::ranges::any_of(job.keep_outs, [](const KeepOut& keep_out) { return keep_out.shape.index() == 2; });
}

/// The windows of centres from the west wall, in inches, on a line across the joists through the room's middle.
std::vector<Span> windows_in(const CeilingMap& map) {
  std::vector<Span> windows = map.windows({inches(0, 80), Vector2d::UnitX()});
  for (Span& window : windows) window = {window[0] / k_inch, window[1] / k_inch};
  return windows;
}

}  // namespace

TEST_CASE("ceiling map: a can's centre may be half of what a bay leaves off the bay's middle", "[placing][formula]") {
  // Between joists of 1-1/2 in the clear bay is the spacing less 1-1/2 in: common practice, arithmetic.
  const auto [spacing_in, bay_in] = GENERATE(table<double, double>({{12, 10.5}, {16, 14.5}, {19.2, 17.7}, {24, 22.5}}));
  const auto [type, width_in, clearance_in] = GENERATE(table<std::string, double, double>(
      {{"rating = \"IC\"", 6.375, 0},
       {"rating = \"non-IC\"", 6.375, 0.5},
       {"", 6.375, 0.5},
       {"rating = \"IC\"\nhousing = { width = \"7in\", length = \"13in\", lies = \"along\" }", 7, 0},
       {"housing = { width = \"7in\", length = \"13in\", lies = \"along\" }", 7, 0.5},
       {"housing = { width = \"6in\", length = \"9in\", lies = \"across\" }", 9, 0.5}}));
  CAPTURE(spacing_in, type);
  const std::string spacing = std::to_string(spacing_in) + "in";
  const Mapped mapped(job_from(bay_job(type, can_at(100, 80), spacing, "8in")));
  const double play_in = (bay_in - width_in) / 2 - clearance_in;
  const auto windows = windows_in(mapped.map);
  // The bays that are between two joists; before the first and after the last it is a wall that bounds.
  const int joists = static_cast<int>(std::floor((240 - 8) / spacing_in)) + 1;
  std::vector<Span> expected;
  for (int i = 0; i + 1 < joists && play_in >= 0; ++i) {
    const double middle_in = 8 + (i + 0.5) * spacing_in;
    expected.push_back({middle_in - play_in, middle_in + play_in});
  }
  // Exact to what counts as touching.
  constexpr double k_slack_in = k_touch_m / k_inch;
  for (const Span& window : expected) {
    CAPTURE(window[0]);
    CHECK(std::ranges::any_of(windows, [&](const Span& found) {
      return std::abs(found[0] - window[0]) < k_slack_in && std::abs(found[1] - window[1]) < k_slack_in;
    }));
    CHECK(mapped.map.fits(inches(window[0], 80)));
    CHECK(mapped.map.fits(inches(window[1], 80)));
    CHECK_FALSE(mapped.map.fits(inches(window[0] - 0.001, 80)));
    CHECK_FALSE(mapped.map.fits(inches(window[1] + 0.001, 80)));
    CHECK(mapped.map.clearance_m(inches((window[0] + window[1]) / 2, 80)) == Approx(play_in * k_inch).margin(1e-9));
  }
  CHECK(windows.size() <= expected.size() + 2);
}

TEST_CASE("ceiling map: a joist that is doubled narrows its bays", "[placing][exact]") {
  // Joists at 8, 24, 40 ... in; the one at 40 in has a second one at its east side, so that both together run from
  // 39-1/4 in to 42-1/4 in.
  const Mapped mapped(job_from(
      bay_job("rating = \"IC\"",
              "[[members]]\nname = \"doubled joist\"\nfrom = { west = \"41.5in\" }\nthickness = \"1-1/2in\"\n" +
                  can_at(46, 80))));
  const Vector2d centre = inches(45, 80);
  CHECK(mapped.map.bay_m(centre) / k_inch == Approx(13));
  const auto hits = mapped.map.hits(centre);
  REQUIRE(hits.size() == 1);
  CHECK(hits[0].name == "doubled joist");
  CHECK(hits[0].part == Hit::Part::hole);
  CHECK(hits[0].overlap_m / k_inch == Approx(42.25 + 6.375 / 2 - 45));
  const auto nearest = mapped.map.nearest(centre);
  REQUIRE(nearest);
  CHECK((*nearest - inches(42.25 + 6.375 / 2, 80)).norm() < 2e-6);
}

TEST_CASE("ceiling map: blocking stops a housing along the bay", "[placing][exact]") {
  const Mapped mapped(job_from(bay_job(
      "rating = \"IC\"\nhousing = { width = \"7in\", length = \"13in\", lies = \"along\" }",
      "[[members]]\nname = \"blocking\"\nstart = { west = \"24in\", south = \"60in\" }\nend = { west = \"40in\", "
      "south = \"60in\" }\nthickness = \"1-1/2in\"\n" +
          can_at(32, 80))));
  // Its north edge is at 60-3/4 in; half of the housing is 6-1/2 in.
  const auto windows = mapped.map.windows({inches(32, 0), Vector2d::UnitY()});
  REQUIRE(windows.size() == 2);
  constexpr double k_slack_in = k_touch_m / k_inch;
  CHECK(windows[0][0] / k_inch == Approx(6.5).margin(k_slack_in));
  CHECK(windows[0][1] / k_inch == Approx(59.25 - 6.5).margin(k_slack_in));
  CHECK(windows[1][0] / k_inch == Approx(60.75 + 6.5).margin(k_slack_in));
  CHECK(windows[1][1] / k_inch == Approx(160 - 6.5).margin(k_slack_in));
}

TEST_CASE("ceiling map: round and square keep-outs push by their own clearance", "[placing][exact]") {
  const std::string bare =
      "[room]\nwidth = \"10 m\"\ndepth = \"8 m\"\nceiling = \"3 m\"\n[can_types.six]\nbeam = { lumens = "
      "900, angle = 60 }\nhole = \"200 mm\"\nrating = \"IC\"\n";
  const Mapped mapped(job_from(bare +
                               "[[keep_outs]]\nname = \"detector\"\nfrom = { west = \"3 m\", south = \"4 m\" }\n"
                               "diameter = \"150 mm\"\nclearance = \"300 mm\"\n"
                               "[[keep_outs]]\nname = \"vent\"\nfrom = { west = \"6 m\", south = \"4 m\" }\n"
                               "width = \"400 mm\"\ndepth = \"200 mm\"\nclearance = \"50 mm\"\n" +
                               can_at(60, 60)));
  // 0.075 + 0.3 + 0.1 = 0.475 m from the detector's centre.
  CHECK(mapped.map.clearance_m({3 + 0.5, 4}) == Approx(0.025));
  CHECK(mapped.map.clearance_m(Vector2d(3, 4) + 0.475 * Vector2d(0.6, 0.8)) == Approx(0).margin(1e-12));
  CHECK(mapped.map.clearance_m({3, 4.1}) == Approx(-0.375));
  // Off the vent's corner at (6.4, 4.2) along a diagonal; its clearance and the hole make 0.15 m.
  CHECK(mapped.map.clearance_m({6.4 + 0.3, 4.2 + 0.4}) == Approx(0.5 - 0.15));
  CHECK(mapped.map.fits(Vector2d(6.4, 4.2) + 0.15 * Vector2d(0.6, 0.8)));
  CHECK_FALSE(mapped.map.fits(Vector2d(6.4, 4.2) + 0.149 * Vector2d(0.6, 0.8)));
  // Deep inside: the least of the four ways out.
  const auto hits = mapped.map.hits({6.1, 4.05});
  REQUIRE(hits.size() == 1);
  CHECK(hits[0].overlap_m == Approx(0.05 + 0.15));
}

TEST_CASE("ceiling map: bars reach joists only in bays of their width", "[placing][exact]") {
  // 14-1/2 in clear between joists, 13 in west of the doubled one.
  const std::string doubled =
      "[[members]]\nname = \"doubled joist\"\nfrom = { west = \"38.5in\" }\nthickness = \"1-1/2in\"\n" + can_at(32, 80);
  const std::string housing = "rating = \"IC\"\nhousing = { width = \"7in\", length = \"9in\", kind = \"new work\", ";
  const Mapped narrow(job_from(bay_job(housing + "narrowest_bay = \"14in\" }", doubled)));
  const Mapped wide(job_from(bay_job(housing + "widest_bay = \"14in\" }", doubled)));
  CHECK_FALSE(narrow.map.fits(inches(31, 80)));
  CHECK(narrow.map.fits(inches(48, 80)));
  CHECK(wide.map.fits(inches(31, 80)));
  CHECK_FALSE(wide.map.fits(inches(48, 80)));
  const auto hits = narrow.map.hits(inches(31, 80));
  REQUIRE(hits.size() == 1);
  CHECK(hits[0].part == Hit::Part::bars);
  CHECK(hits[0].overlap_m / k_inch == Approx(1));
  // The bay from 40-3/4 in on is the next one; half of 7 in from its joist.
  const auto nearest = narrow.map.nearest(inches(31, 80));
  REQUIRE(nearest);
  CHECK(narrow.map.bay_m(*nearest) / k_inch == Approx(14.5));
}

TEST_CASE("ceiling map: along the bay follows the joists' direction", "[placing][exact]") {
  const std::string text =
      "[room]\nwidth = \"240in\"\ndepth = \"160in\"\nceiling = \"8ft\"\n"
      "[[joists]]\nparallel_to = \"west\"\nfirst = \"8in\"\nspacing = \"16in\"\n"
      "area = { from = { west = 0, south = 0 }, width = \"120in\", depth = \"160in\" }\n"
      "[[joists]]\nparallel_to = \"south\"\nfirst = \"8in\"\nspacing = \"16in\"\n"
      "area = { corners = [[\"120in\", 0], [\"240in\", 0], [\"240in\", \"160in\"], [\"120in\", \"160in\"]] }\n"
      "[can_types.six]\nbeam = { lumens = 900, angle = 60 }\nhole = \"6in\"\n"
      "housing = { width = \"7in\", length = \"20in\", lies = \"along\" }\n" +
      can_at(32, 80);
  const Mapped mapped(job_from(text));
  CHECK(std::abs(mapped.map.lie_at(inches(32, 80)).y()) == 1);
  CHECK(std::abs(mapped.map.lie_at(inches(200, 80)).x()) == 1);
  CHECK(mapped.map.fits(inches(32, 80)));
  CHECK(mapped.map.fits(inches(200, 80)));
  CHECK_FALSE(mapped.map.fits(inches(24, 80)));
  CHECK_FALSE(mapped.map.fits(inches(200, 88)));
  CHECK(mapped.map.fits(inches(200, 16 + 80)));
}

TEST_CASE("ceiling map: on random ceilings it says what figures laid over each other say", "[placing][reference]") {
  RandomCeilings random(20250309);
  int fitting = 0;
  int clashing = 0;
  for (int i = 0; i < 60; ++i) {
    const Mapped mapped(random.next());
    for (int j = 0; j < 40; ++j) {
      const Vector2d centre = random.place(mapped.job.room);
      const double gap_m = plain_gap_m(mapped.job, mapped.framing, centre);
      // What the plain answer cannot tell: its circles are polygons of 240 corners.
      if (std::abs(gap_m) < 1e-4) continue;
      CAPTURE(i, j, gap_m);
      CHECK(mapped.map.fits(centre) == (gap_m > 0));
      // Free gaps are the distance of the figures; the other sign tells only that they overlap.
      if (gap_m > 0) CHECK(mapped.map.clearance_m(centre) == Approx(gap_m).margin(1e-4));
      if (gap_m < 0) CHECK(mapped.map.clearance_m(centre) < 0);
      ++(gap_m > 0 ? fitting : clashing);
    }
  }
  CHECK(fitting > 300);
  CHECK(clashing > 300);
}

TEST_CASE("ceiling map: moved as far as the overlap says, and out of its way, a can is clear of each obstacle alone",
          "[placing][property]") {
  RandomCeilings random(20250310);
  for (int i = 0; i < 60; ++i) {
    const Job job = random.next();
    const Framing frame = framing(job);
    for (const Obstacle& obstacle : fixed_obstacles(job, frame)) {
      if (obstacle.kind == Obstacle::Kind::wall) continue;
      const CeilingMap map(job, frame, job.can_types.front(), {obstacle});
      const Vector2d centre = random.place(job.room);
      const auto hits = map.hits(centre);
      if (hits.empty()) continue;
      REQUIRE(hits.size() == 1);
      // Of 7200 directions none leads out sooner; and one does then, unless two parts are to come out of its way.
      const auto is_free = [&](double way, int step) {
        const double turn = 2 * std::numbers::pi * step / 7200;
        return map.hits(centre + way * hits[0].overlap_m * Vector2d(std::cos(turn), std::sin(turn))).empty();
      };
      int sooner = 0;
      int then = 0;
      for (int step = 0; step < 7200; ++step) {
        if (is_free(1 - 1e-3, step)) ++sooner;
        if (is_free(1 + 1e-3, step)) ++then;
      }
      CHECK(sooner == 0);
      if (!job.can_types.front().housing) CHECK(then > 0);
    }
  }
}

TEST_CASE("ceiling map: windows are where it fits, and nowhere else", "[placing][property]") {
  RandomCeilings random(20250311);
  for (int i = 0; i < 60; ++i) {
    const Mapped mapped(random.next());
    const Line line = random.line(mapped.job.room);
    const auto windows = mapped.map.windows(line);
    constexpr double k_edge_m = 1e-4;
    for (double station = -12; station <= 12; station += 0.0137) {
      const bool is_in = std::ranges::any_of(windows, [&](const Span& window) {
        return window[0] + k_edge_m < station && station < window[1] - k_edge_m;
      });
      const bool is_out = std::ranges::none_of(windows, [&](const Span& window) {
        return window[0] - k_edge_m < station && station < window[1] + k_edge_m;
      });
      CAPTURE(i, station);
      if (is_in) CHECK(mapped.map.fits(line.at(station)));
      if (is_out) CHECK_FALSE(mapped.map.fits(line.at(station)));
    }
  }
}

TEST_CASE("ceiling map: no place of a fine raster is nearer than the nearest", "[placing][reference]") {
  RandomCeilings random(20250312);
  int found = 0;
  for (int i = 0; i < 40; ++i) {
    const Mapped mapped(random.next());
    const Vector2d centre = random.place(mapped.job.room);
    const auto nearest = mapped.map.nearest(centre);
    const double distance_m = nearest ? (*nearest - centre).norm() : 1e9;
    if (nearest) CHECK(mapped.map.fits(*nearest));
    constexpr double k_step_m = 0.02;
    double raster_m = 1e9;
    for (double x = centre.x() - 2; x <= centre.x() + 2; x += k_step_m) {
      for (double y = centre.y() - 2; y <= centre.y() + 2; y += k_step_m) {
        const double there_m = (Vector2d(x, y) - centre).norm();
        if (there_m < raster_m && mapped.map.fits({x, y})) raster_m = there_m;
      }
    }
    CAPTURE(i);
    CHECK(distance_m <= raster_m + 1e-6);
    // Where the raster finds a place, the nearest of all is nearer by little more than its step, unless it is in a gap
    // that the raster misses.
    if (raster_m < 1) ++found;
  }
  CHECK(found > 20);
}

TEST_CASE("ceiling map: a mirrored ceiling has mirrored answers", "[placing][property]") {
  RandomCeilings random(20250313);
  for (int i = 0; i < 40; ++i) {
    const Mapped plain(random.next());
    const Mapped mirror(mirrored(plain.job));
    for (int j = 0; j < 20; ++j) {
      const Vector2d centre = random.place(plain.job.room);
      const Vector2d image(-centre.x(), centre.y());
      CAPTURE(i, j);
      // How deep it is in a keep-out that is not convex depends on its pieces, which the image may have others of.
      if (plain.map.clearance_m(centre) > 0 || !has_bent_keep_out(plain.job)) {
        CHECK(plain.map.clearance_m(centre) == Approx(mirror.map.clearance_m(image)).margin(1e-9));
      }
      if (std::abs(plain.map.clearance_m(centre)) > 1e-5) CHECK(plain.map.fits(centre) == mirror.map.fits(image));
      const auto nearest = plain.map.nearest(centre);
      const auto nearest_image = mirror.map.nearest(image);
      REQUIRE(nearest.has_value() == nearest_image.has_value());
      if (nearest) CHECK((*nearest - centre).norm() == Approx((*nearest_image - image).norm()).margin(1e-5));
    }
  }
}

TEST_CASE("ceiling map: a larger hole, housing or clearance fits nowhere that the smaller one does not",
          "[placing][property]") {
  RandomCeilings random(20250314);
  for (int i = 0; i < 40; ++i) {
    const Job small = random.next();
    Job large = small;
    large.can_types[0].hole_m = *small.can_types[0].hole_m + 0.01;
    if (large.can_types[0].housing) large.can_types[0].housing->width_m += 0.01;
    large.can_types[0].rating = Rating::unknown;
    for (KeepOut& keep_out : large.keep_outs) keep_out.clearance_m += 0.01;
    const Mapped less(small);
    const Mapped more(large);
    for (int j = 0; j < 60; ++j) {
      const Vector2d centre = random.place(small.room);
      CAPTURE(i, j);
      CHECK(more.map.clearance_m(centre) <= less.map.clearance_m(centre) + 1e-12);
      if (more.map.fits(centre)) CHECK(less.map.fits(centre));
    }
  }
}

TEST_CASE("ceiling map: where no bay is wide enough, there is no place", "[placing][exact]") {
  const Mapped mapped(
      job_from(bay_job("housing = { width = \"14in\", length = \"16in\" }", can_at(32, 80), "16in", "8in")));
  CHECK_FALSE(mapped.map.nearest(inches(32, 80)));
  CHECK(mapped.map.windows({inches(32, 80), Vector2d::UnitX()}).empty());
  CHECK(mapped.map.needed_m(inches(32, 80), Vector2d::UnitX()) / k_inch == Approx(15));
}

TEST_CASE("ceiling map: a bay just as wide as the can has one place", "[placing][exact]") {
  const Mapped mapped(job_from(bay_job(
      "rating = \"IC\"\nhousing = { width = \"14-1/2in\", length = \"16in\", lies = \"along\" }", can_at(32, 80))));
  CHECK(mapped.map.fits(inches(32, 80)));
  CHECK_FALSE(mapped.map.fits(inches(32.001, 80)));
  const auto nearest = mapped.map.nearest(inches(30, 80));
  REQUIRE(nearest);
  CHECK((*nearest - inches(32, 80)).norm() < 2e-6);
}
