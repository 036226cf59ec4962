#include "evenlit/placing/moved_layout.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "ceilings.hpp"
#include "evenlit/placing/layouts.hpp"
#include "mapped.hpp"
#include "random_ceilings.hpp"

using namespace evenlit;

namespace {

using Eigen::Vector2d;
using Part = PartMove::Part;
using Positions = std::vector<Vector2d>;

constexpr double k_same_shift_m = k_inch / 16;

MovedLayout moved_in(const Mapped& mapped, const Positions& positions) {
  return moved_to_fit(positions, mapped.map, mapped.job.can_types.front(), mapped.job.room.corners_m);
}

bool fit(const Mapped& mapped, const Positions& positions, const Vector2d& shift_m = Vector2d::Zero()) {
  return std::ranges::all_of(positions, [&](const Vector2d& place) { return mapped.map.fits(place + shift_m); });
}

Positions mirrored(Positions positions) {
  for (Vector2d& place : positions) place.x() = -place.x();
  return positions;
}

/// The length of the least shift along x or y at which all fit, of every 1/64 in.
double scanned_m(const Mapped& mapped, const Positions& positions) {
  constexpr double k_step_m = k_inch / 64;
  for (int step = 0; step * k_step_m <= k_farthest_shift_m; ++step) {
    for (const Vector2d& way : {Vector2d(1, 0), Vector2d(-1, 0), Vector2d(0, 1), Vector2d(0, -1)}) {
      if (fit(mapped, positions, step * k_step_m * way)) return step * k_step_m;
    }
  }
  return std::numeric_limits<double>::infinity();
}

bool is_straight(const Vector2d& shift) { return shift.x() == 0 || shift.y() == 0; }

bool is_whole(const MovedLayout& moved) { return moved.moves.size() == 1 && moved.moves[0].part == Part::all; }

}  // namespace

TEST_CASE("moved layout: on random ceilings no scan finds a shorter straight shift of all, and all fit after any move",
          "[placing][property]") {
  RandomCeilings ceilings(41);
  int whole = 0;
  int parts = 0;
  int stuck = 0;
  for (int i = 0; i < 400; ++i) {
    CAPTURE(i);
    const Mapped mapped(ceilings.next());
    const Positions positions = even_layout(mapped.job.room.corners_m, 1 + i % 3, 1 + i / 3 % 3).positions_m;
    const MovedLayout moved = moved_in(mapped, positions);
    REQUIRE(moved.positions_m.size() == positions.size());
    for (const PartMove& move : moved.moves) CHECK(move.by_m.norm() <= k_farthest_shift_m);
    if (moved.all_fit) {
      CHECK(fit(mapped, moved.positions_m));
    } else {
      CHECK(moved.positions_m == positions);
      CHECK(moved.moves.empty());
      ++stuck;
    }
    if (moved.moves.empty()) continue;
    CHECK_FALSE(fit(mapped, positions));
    const double least_m = scanned_m(mapped, positions);
    if (is_whole(moved) && is_straight(moved.moves[0].by_m)) {
      ++whole;
      // It may be shorter than the scan's, which steps over narrow gaps; that it fits is checked above.
      CHECK(moved.moves[0].by_m.norm() <= least_m + k_same_shift_m);
    } else {
      ++parts;
      CHECK(std::isinf(least_m));
    }
  }
  CAPTURE(whole, parts, stuck);
  // None of the cases is a rare one.
  CHECK(std::min({whole, parts, stuck}) > 5);
}

TEST_CASE("moved layout: what fits, and what nothing is above, stays", "[placing][exact]") {
  // Bays of joists at 8 in, 24 in ... have their middles at 16 in, 32 in ...
  const Mapped mapped(job_from(bay_job("", can_at(32, 40))));
  const Positions positions{k_inch * Vector2d(64, 40), k_inch * Vector2d(160, 40)};
  const MovedLayout moved = moved_in(mapped, positions);
  CHECK(moved.all_fit);
  CHECK(moved.moves.empty());
  CHECK(moved.positions_m == positions);

  Job bare = mapped.job;
  bare.joists.clear();
  const Mapped open(bare);
  for (int columns = 1; columns < 8; ++columns) {
    const Positions even = even_layout(bare.room.corners_m, 3, columns).positions_m;
    CHECK(moved_in(open, even).moves.empty());
    CHECK(moved_in(open, even).positions_m == even);
  }
}

TEST_CASE("moved layout: all cans move into the bays by what the hole is off, to the nearer side", "[placing][exact]") {
  // Joists of 1-1/2 in at 56 in and 152 in, cans an inch east of them: the hole of 6-3/8 in with 1/2 in of clearance
  // fits from 3/4 + 3-3/16 + 1/2 in = 4-7/16 in off, so 3-7/16 in to the east are the least.
  const Mapped mapped(job_from(bay_job("", can_at(32, 40))));
  const Positions positions{k_inch * Vector2d(57, 40), k_inch * Vector2d(153, 40)};
  const MovedLayout moved = moved_in(mapped, positions);
  REQUIRE(is_whole(moved));
  CHECK((moved.moves[0].by_m - k_inch * Vector2d(3.4375, 0)).norm() < 2 * k_touch_m);
}

TEST_CASE("moved layout: of shifts as long the one toward the room's middle", "[placing][exact]") {
  // On a joist both sides are as far.
  const Mapped mapped(job_from(bay_job("", can_at(32, 40))));
  CHECK(moved_in(mapped, {k_inch * Vector2d(56, 40)}).moves.at(0).by_m.x() > 0);
  CHECK(moved_in(mapped, {k_inch * Vector2d(184, 40)}).moves.at(0).by_m.x() < 0);
}

TEST_CASE("moved layout: all move aslant where no straight shift fits", "[placing][exact]") {
  // A can where a joist crosses a member from wall to wall has to go 4-7/16 in off both, as above: the one exactly, the
  // other in whole quarter inches 4-1/2 in. The room's middle is to the east.
  const Mapped mapped(job_from(bay_job("",
                                       "[[members]]\nname = \"beam\"\nfrom = { south = \"60in\" }\nthickness = "
                                       "\"1-1/2in\"\n" +
                                           can_at(32, 40))));
  const Positions positions{k_inch * Vector2d(56, 60)};
  REQUIRE(std::isinf(scanned_m(mapped, positions)));
  const MovedLayout moved = moved_in(mapped, positions);
  REQUIRE(is_whole(moved));
  const Vector2d& by = moved.moves[0].by_m;
  CHECK(by.minCoeff() == Approx(4.4375 * k_inch).margin(2 * k_touch_m));
  CHECK(by.maxCoeff() == Approx(4.5 * k_inch).margin(2 * k_touch_m));
}

TEST_CASE("moved layout: columns move each by itself where no shift of all fits", "[placing][exact]") {
  // One column on a joist, the next in the middle of a bay: a hole with its clearance has 7-1/8 in, a bay 14-1/2 in, so
  // a shift that brings one in takes the other out only if they are more than the play of 7-1/8 in apart: 8 in.
  const Mapped mapped(job_from(bay_job("", can_at(32, 40))));
  Positions positions;
  for (const double y : {40.0, 120.0}) {
    for (const double x : {56.0, 120.0 + 8, 184.0}) positions.push_back(k_inch * Vector2d(x, y));
  }
  const MovedLayout moved = moved_in(mapped, positions);
  REQUIRE(moved.all_fit);
  REQUIRE(moved.moves.size() == 2);
  for (const PartMove& move : moved.moves) CHECK(move.part == Part::column);
  CHECK(moved.moves[0].number == 1);
  CHECK((moved.moves[0].by_m - k_inch * Vector2d(4.4375, 0)).norm() < 2 * k_touch_m);
  CHECK(moved.moves[1].number == 3);
  CHECK((moved.moves[1].by_m + k_inch * Vector2d(4.4375, 0)).norm() < 2 * k_touch_m);
  CHECK(moved.positions_m[1] == positions[1]);

  // A single can between them does not move by itself.
  positions = {k_inch * Vector2d(56, 40), k_inch * Vector2d(128, 80), k_inch * Vector2d(184, 120)};
  CHECK_FALSE(moved_in(mapped, positions).all_fit);
  CHECK(moved_in(mapped, positions).positions_m == positions);
}

TEST_CASE("moved layout: cans that lie on each other do not fit, however they move", "[placing][exact]") {
  const Mapped mapped(job_from(bay_job("rating = \"IC\"", can_at(32, 40))));
  CHECK_FALSE(moved_in(mapped, {k_inch * Vector2d(64, 40), k_inch * Vector2d(64, 46)}).all_fit);
  CHECK(moved_in(mapped, {k_inch * Vector2d(64, 40), k_inch * Vector2d(64, 46.375)}).all_fit);
}

TEST_CASE("moved layout: the mirrored room has the mirrored move", "[placing][property]") {
  RandomCeilings ceilings(43);
  int moved_ones = 0;
  for (int i = 0; i < 200; ++i) {
    CAPTURE(i);
    const Mapped mapped(ceilings.next());
    const Mapped image(mirrored(mapped.job));
    const Positions positions = even_layout(mapped.job.room.corners_m, 1 + i % 3, 2).positions_m;
    const MovedLayout moved = moved_in(mapped, positions);
    const MovedLayout image_moved = moved_in(image, mirrored(positions));
    CHECK(moved.all_fit == image_moved.all_fit);
    REQUIRE(is_whole(moved) == is_whole(image_moved));
    if (!is_whole(moved)) continue;
    ++moved_ones;
    const Vector2d& by = moved.moves[0].by_m;
    const Vector2d back{-image_moved.moves[0].by_m.x(), image_moved.moves[0].by_m.y()};
    // Where two shifts are as long and come as near to the middle, the one to the west is taken in both rooms.
    const bool is_tie = std::abs(by.norm() - back.norm()) <= k_same_shift_m && fit(mapped, positions, back);
    CHECK(((by - back).norm() < 4 * k_touch_m || is_tie));
  }
  CHECK(moved_ones > 10);
}
