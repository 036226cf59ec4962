#include "evenlit/placing/placed_can.hpp"

#include <cmath>

#include "ceilings.hpp"
#include "evenlit/placing/hole_check.hpp"
#include "evenlit/placing/moved_layout.hpp"

using namespace evenlit;

namespace {

using Eigen::Vector2d;
using Kind = CanLine::Kind;

Vector2d inches(double x, double y) { return k_inch * Vector2d(x, y); }

/// Cans 1 and 2 are in a row 40 in from the south wall, both in the middle of their bays; can 3 is to be placed.
Job row_and_one(const std::string& rest = {}) {
  return job_from(bay_job("rating = \"IC\"", can_at(32, 40) + can_at(96, 40) + can_at(208, 120) + rest));
}

/// The job with a can's centre elsewhere, in a room whose south and west walls are the axes.
Job with_can_at(Job job, int can, const Vector2d& place_m) {
  Can& moved = job.cans[static_cast<std::size_t>(can)];
  moved.from[0] = {"west", place_m.x()};
  moved.from[1] = {"south", place_m.y()};
  return job;
}

bool is_at(const PlacedCan& placed, const Vector2d& place_m) {
  return placed.place_m && (*placed.place_m - place_m).norm() < 2 * k_touch_m;
}

}  // namespace

TEST_CASE("a placed can: in line with a row where it fits there", "[placing][exact]") {
  const PlacedCan placed = placed_can(row_and_one(), 2, inches(144.5, 42));
  CHECK(placed.fits_there());
  // 144.5 in is within 4 in of no can's x; the bay from 136-3/4 to 151-1/4 in holds the hole.
  CHECK(is_at(placed, inches(144.5, 40)));
  REQUIRE(placed.lines.size() == 1);
  CHECK(placed.lines[0].kind == Kind::row);
  CHECK(placed.lines[0].axis == 1);
  CHECK(placed.lines[0].cans == std::vector{0, 1});
}

TEST_CASE("a placed can: where two lines cross", "[placing][exact]") {
  const PlacedCan placed = placed_can(row_and_one(), 2, inches(94, 78));
  // x of can 2; the middle of the room's depth.
  CHECK(is_at(placed, inches(96, 80)));
  REQUIRE(placed.lines.size() == 2);
  CHECK(placed.lines[0].cans == std::vector{1});
  CHECK(placed.lines[1].kind == Kind::middle);
}

TEST_CASE("a placed can: midway between two of a row", "[placing][exact]") {
  const PlacedCan placed = placed_can(row_and_one(), 2, inches(62, 110));
  CHECK(is_at(placed, inches(64, 110)));
  REQUIRE(placed.lines.size() == 1);
  CHECK(placed.lines[0].kind == Kind::midway);
  CHECK(placed.lines[0].cans == std::vector{0, 1});
}

TEST_CASE("a placed can: far from every line it stays, on a tape's marks", "[placing][exact]") {
  const PlacedCan placed = placed_can(row_and_one(), 2, inches(79.96, 110.03));
  CHECK(placed.fits_there());
  CHECK(placed.lines.empty());
  CHECK(is_at(placed, inches(80, 110)));
}

TEST_CASE("a placed can: moved off framing with play, along its row first", "[placing][exact]") {
  // The joist's edges are at 151-1/4 and 152-3/4 in, the hole's radius is 3-3/16 in: clear at 148-1/16 in, 1/4 in less
  // with play.
  const PlacedCan in_row = placed_can(row_and_one(), 2, inches(151, 40.2));
  CHECK_FALSE(in_row.fits_there());
  CHECK(in_row.hits.at(0).kind == Obstacle::Kind::framing);
  CHECK(is_at(in_row, inches(147.8125, 40)));
  REQUIRE(in_row.lines.size() == 1);
  CHECK(in_row.lines[0].axis == 1);
  const PlacedCan alone = placed_can(row_and_one(), 2, inches(151, 110));
  CHECK(alone.lines.empty());
  CHECK(is_at(alone, inches(147.8125, 110)));
}

TEST_CASE("a placed can is in nobody's way itself, and the others are in its", "[placing][exact]") {
  const Job job = row_and_one();
  CHECK(placed_can(job, 2, inches(208, 120)).fits_there());
  const PlacedCan on_can_1 = placed_can(job, 2, inches(32, 45));
  CHECK(on_can_1.hits.at(0).name == "can 1");
  REQUIRE(on_can_1.place_m);
  // Two holes of 6-3/8 in do not overlap.
  CHECK((*on_can_1.place_m - inches(32, 40)).norm() > 6.375 * k_inch - k_touch_m);
}

TEST_CASE("a placed can: a wish outside of the room counts at the nearest wall", "[placing][exact]") {
  const PlacedCan placed = placed_can(row_and_one(), 2, inches(-30, 110));
  CHECK((placed.wished_m - inches(0, 110)).norm() < k_touch_m);
  CHECK_FALSE(placed.fits_there());
  REQUIRE(placed.place_m);
  CHECK(placed.place_m->x() > 3.1875 * k_inch - k_touch_m);
}

TEST_CASE("a placed can: nowhere near, nowhere", "[placing][exact]") {
  const std::string duct =
      "[[keep_outs]]\nname = \"duct\"\nfrom = { west = \"150in\", south = \"60in\" }\nwidth = \"60in\"\n"
      "depth = \"60in\"\n";
  const PlacedCan placed = placed_can(row_and_one(duct), 0, inches(180, 90));
  CHECK(placed.hits.at(0).name == "duct");
  CHECK_FALSE(placed.place_m);
}

TEST_CASE("a placed can that hangs minds only walls and what it would be inside of", "[placing][exact]") {
  const std::string rest =
      "height = \"4ft\"\n[[obstructions]]\nname = \"cabinet\"\nfrom = { west = \"150in\", south = \"60in\" }\n"
      "width = \"40in\"\ndepth = \"40in\"\nbottom = \"3ft\"\ntop = \"6ft\"\n";
  const Job job = job_from(bay_job("", can_at(32, 40) + can_at(208, 120) + rest));
  CHECK(placed_can(job, 1, inches(88, 105)).fits_there());  // under a joist
  const PlacedCan placed = placed_can(job, 1, inches(168, 75));
  CHECK(placed.inside == "cabinet");
  CHECK_FALSE(placed.place_m);
}

TEST_CASE("a placed can: every place fits, and is as near as the rules say", "[placing][property]") {
  const Job job = row_and_one();
  for (int x = -1; x <= 13; ++x) {
    for (int y = -1; y <= 9; ++y) {
      const PlacedCan placed = placed_can(job, 2, inches(19.3 * x, 18.7 * y));
      CAPTURE(x, y);
      REQUIRE(placed.place_m);
      CHECK((*placed.place_m - placed.wished_m).norm() <= k_farthest_shift_m + k_play_m);
      CHECK(hole_hits(with_can_at(job, 2, *placed.place_m)).at(2).hits.empty());
      for (const CanLine& line : placed.lines) {
        const Vector2d foot = line.line.at(line.line.station_of(*placed.place_m));
        CHECK((foot - *placed.place_m).norm() < k_touch_m);
        CHECK(std::abs((foot - placed.wished_m)[line.axis]) <= k_snap_m + k_touch_m);
      }
    }
  }
}
