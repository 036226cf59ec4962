#include "evenlit/placing/moved_layout.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <ranges>

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

MoveRules rules_in(const Mapped& mapped) {
  const Polygon& plan = mapped.job.room.corners_m;
  return {.frame = frame_of(plan), .middle_m = bounds_of(plan).center(), .units = Units::imperial};
}

MovedLayout moved_in(const Mapped& mapped, const Positions& positions) {
  return moved_to_fit(positions, mapped.map, mapped.job.can_types.front(), rules_in(mapped));
}

bool fit(const Mapped& mapped, const Positions& positions, const Vector2d& shift_m = Vector2d::Zero()) {
  return std::ranges::all_of(positions, [&](const Vector2d& place) { return mapped.map.fits(place + shift_m); });
}

Positions mirrored(Positions positions) {
  for (Vector2d& place : positions) place.x() = -place.x();
  return positions;
}

/// The length of the least shift along the plan's directions at which all fit, of every 1/64 in.
double scanned_m(const Mapped& mapped, const Positions& positions) {
  constexpr double k_step_m = k_inch / 64;
  const PlanFrame frame = frame_of(mapped.job.room.corners_m);
  for (int step = 0; step * k_step_m <= k_farthest_shift_m; ++step) {
    for (const Vector2d& way : {Vector2d(1, 0), Vector2d(-1, 0), Vector2d(0, 1), Vector2d(0, -1)}) {
      if (fit(mapped, positions, step * k_step_m * frame.out(way))) return step * k_step_m;
    }
  }
  return std::numeric_limits<double>::infinity();
}

bool is_straight(const Mapped& mapped, const Vector2d& shift) {
  return frame_of(mapped.job.room.corners_m).in(shift).cwiseAbs().minCoeff() < k_touch_m / 1000;
}

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
    if (is_whole(moved) && is_straight(mapped, moved.moves[0].by_m)) {
      ++whole;
      // It may be shorter than the scan's, which steps over narrow gaps; that it fits is checked above. It goes on by
      // the play and up to an eighth of an inch, or stops in the middle of a gap that is narrower.
      CHECK(moved.moves[0].by_m.norm() <= least_m + k_play_m + k_inch / 8 + k_same_shift_m);
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
  // fits from 3/4 + 3-3/16 + 1/2 in = 4-7/16 in off, so 3-7/16 in to the east are the least, and 3-3/4 in the next
  // whole eighth that leaves 1/4 in.
  const Mapped mapped(job_from(bay_job("", can_at(32, 40))));
  const Positions positions{k_inch * Vector2d(57, 40), k_inch * Vector2d(153, 40)};
  const MovedLayout moved = moved_in(mapped, positions);
  REQUIRE(is_whole(moved));
  CHECK((moved.moves[0].by_m - k_inch * Vector2d(3.75, 0)).norm() < 2 * k_touch_m);
}

TEST_CASE("moved layout: of shifts as long the one toward the room's middle", "[placing][exact]") {
  // On a joist both sides are as far.
  const Mapped mapped(job_from(bay_job("", can_at(32, 40))));
  CHECK(moved_in(mapped, {k_inch * Vector2d(56, 40)}).moves.at(0).by_m.x() > 0);
  CHECK(moved_in(mapped, {k_inch * Vector2d(184, 40)}).moves.at(0).by_m.x() < 0);
}

TEST_CASE("moved layout: all move aslant where no straight shift fits", "[placing][exact]") {
  // A can where a joist crosses a member from wall to wall has to go 4-7/16 in off both, as above, with 1/4 in of play
  // 4-11/16 in: to the next whole eighth, to the next whole quarter. The room's middle is to the east.
  const Mapped mapped(job_from(bay_job("",
                                       "[[members]]\nname = \"beam\"\nfrom = { south = \"60in\" }\nthickness = "
                                       "\"1-1/2in\"\n" +
                                           can_at(32, 40))));
  const Positions positions{k_inch * Vector2d(56, 60)};
  REQUIRE(std::isinf(scanned_m(mapped, positions)));
  const MovedLayout moved = moved_in(mapped, positions);
  REQUIRE(is_whole(moved));
  const Vector2d& by = moved.moves[0].by_m;
  CHECK(by.minCoeff() == Approx(4.75 * k_inch).margin(2 * k_touch_m));
  CHECK(by.maxCoeff() == Approx(4.75 * k_inch).margin(2 * k_touch_m));
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
  CHECK((moved.moves[0].by_m - k_inch * Vector2d(4.75, 0)).norm() < 2 * k_touch_m);
  CHECK(moved.moves[1].number == 3);
  CHECK((moved.moves[1].by_m + k_inch * Vector2d(4.75, 0)).norm() < 2 * k_touch_m);
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

TEST_CASE("moved layout: under symmetric joists symmetric layouts that change their spacing stay symmetric",
          "[placing][property]") {
  // Joists at 16 in, 32 in ... 224 in of 240 in are symmetric about the middle, which is that of a bay.
  const Mapped mapped(job_from(bay_job("", can_at(24, 40), "16in", "16in")));
  int evenly = 0;
  int unevenly = 0;
  for (int columns = 2; columns <= 9; ++columns) {
    for (const double offset_in : {20.0, 24.0, 27.0, 30.0, 33.0}) {
      CAPTURE(columns, offset_in);
      const Layout layout = offset_layout(mapped.job.room.corners_m, 2, columns, offset_in * k_inch);
      const MovedLayout moved = moved_in(mapped, layout.positions_m);
      if (!moved.all_fit || moved.moves.empty() || is_whole(moved)) continue;
      CHECK(moved.symmetry == MovedLayout::Symmetry::kept);
      for (const Vector2d& place : moved.positions_m) {
        const Vector2d image{240 * k_inch - place.x(), place.y()};
        CHECK(std::ranges::any_of(moved.positions_m,
                                  [&](const Vector2d& other) { return (other - image).norm() < 2 * k_touch_m; }));
      }
      std::vector<double> stations;
      for (int column = 0; column < columns; ++column) stations.push_back(moved.positions_m[column].x());
      const double gap_m = stations[1] - stations[0];
      const bool is_even = std::ranges::all_of(std::views::iota(1, columns), [&](int i) {
        return std::abs(stations[i] - stations[i - 1] - gap_m) < 4 * k_touch_m;
      });
      // Of two or three columns mirrored pairs are evenly spaced as well.
      if (moved.spacing_factor.x() > 0) {
        CHECK(is_even);
        CHECK(gap_m == Approx(layout.spacing_m.x() * moved.spacing_factor.x()).margin(4 * k_touch_m));
      }
      ++(moved.spacing_factor.x() > 0 ? evenly : unevenly);
    }
  }
  CAPTURE(evenly, unevenly);
  CHECK(evenly > 2);
  CHECK(unevenly > 2);
}

TEST_CASE("moved layout: columns spread evenly where no shift of all fits", "[placing][exact]") {
  // At 58 in and 182 in, 2 in inward of joists at 56 in and 184 in: together they can't move, the one gains what the
  // other loses. Apart they go 4-7/16 in and the play past the joists or 4-7/16 in less 2 in and the play inward: 2-3/4
  // in.
  const Mapped mapped(job_from(bay_job("", can_at(32, 40))));
  Positions positions;
  for (const double y : {40.0, 120.0}) {
    for (const double x : {58.0, 182.0}) positions.push_back(k_inch * Vector2d(x, y));
  }
  // A shift of all of 8 in has its gap too: the middle of a bay is 8 in from a joist.
  MoveRules rules = rules_in(mapped);
  rules.is_held[0] = true;
  const MovedLayout moved = moved_to_fit(positions, mapped.map, mapped.job.can_types.front(), rules);
  REQUIRE(moved.all_fit);
  REQUIRE(moved.moves.size() == 2);
  CHECK((moved.moves[0].by_m - k_inch * Vector2d(2.75, 0)).norm() < 2 * k_touch_m);
  CHECK((moved.moves[1].by_m + k_inch * Vector2d(2.75, 0)).norm() < 2 * k_touch_m);
  CHECK(moved.spacing_factor.x() == Approx((124 - 5.5) / 124).epsilon(1e-4));
  CHECK(moved.spacing_factor.y() == 1);
  CHECK(moved.symmetry == MovedLayout::Symmetry::kept);
}

TEST_CASE("moved layout: single cans move only when that is allowed, each to the nearest place", "[placing][exact]") {
  // Of four cans in a row along the joists none can be brought by another's shift; two are on joists.
  const Mapped mapped(job_from(bay_job("", can_at(32, 40))));
  const Positions positions{k_inch * Vector2d(56, 40), k_inch * Vector2d(128, 80), k_inch * Vector2d(185, 120)};
  REQUIRE_FALSE(moved_in(mapped, positions).all_fit);
  MoveRules rules = rules_in(mapped);
  rules.may_move_single_cans = true;
  const MovedLayout moved = moved_to_fit(positions, mapped.map, mapped.job.can_types.front(), rules);
  REQUIRE(moved.all_fit);
  REQUIRE(moved.moves.size() == 2);
  CHECK(moved.moves[0].part == Part::can);
  CHECK(moved.moves[0].number == 1);
  CHECK(moved.moves[1].number == 3);
  CHECK(moved.positions_m[1] == positions[1]);
  // 4-7/16 in off the joists at 56 in and 184 in with the play, in whole eighths: 4-3/4 in, from 185 in 3-3/4 in.
  CHECK(moved.moves[0].by_m.norm() == Approx(4.75 * k_inch).margin(2 * k_touch_m));
  CHECK((moved.moves[1].by_m - k_inch * Vector2d(3.75, 0)).norm() < 2 * k_touch_m);
  CHECK_FALSE(moved.is_straight);
}

TEST_CASE("moved layout: single cans on random ceilings fit, and only those move that did not", "[placing][property]") {
  RandomCeilings ceilings(47);
  int singles = 0;
  for (int i = 0; i < 200; ++i) {
    CAPTURE(i);
    const Mapped mapped(ceilings.next());
    const Positions positions = even_layout(mapped.job.room.corners_m, 1 + i % 3, 2 + i % 2).positions_m;
    MoveRules rules = rules_in(mapped);
    rules.may_move_single_cans = true;
    const MovedLayout moved = moved_to_fit(positions, mapped.map, mapped.job.can_types.front(), rules);
    if (!moved.all_fit) continue;
    CHECK(fit(mapped, moved.positions_m));
    if (moved.moves.empty() || moved.moves[0].part != Part::can) continue;
    ++singles;
    for (const PartMove& move : moved.moves) {
      const std::size_t can = static_cast<std::size_t>(move.number) - 1;
      CHECK((moved.positions_m[can] - positions[can] - move.by_m).norm() < k_touch_m);
      // Somewhere on its way, but for the play and an eighth, was no place for it.
      const double least_m = (mapped.map.nearest(positions[can]).value() - positions[can]).norm();
      CHECK(move.by_m.norm() >= least_m - 2 * k_touch_m);
    }
  }
  CHECK(singles > 5);
}

TEST_CASE("moved layout: shifts leave a quarter of an inch to both sides of a gap, and are whole eighths",
          "[placing][property]") {
  const Mapped mapped(job_from(bay_job("", can_at(32, 40))));
  for (double x_in = 40; x_in < 72; x_in += 0.7) {
    CAPTURE(x_in);
    const MovedLayout moved = moved_in(mapped, {k_inch * Vector2d(x_in, 40)});
    REQUIRE(moved.all_fit);
    if (moved.moves.empty()) continue;
    const double shift_m = moved.moves[0].by_m.norm();
    CHECK(mapped.map.clearance_m(moved.positions_m[0]) >= k_play_m - 2 * k_touch_m);
    CHECK(shift_m / (k_inch / 8) == Approx(std::round(shift_m / (k_inch / 8))).margin(1e-3));
  }
  // A gap of 1/8 in: its middle.
  const Mapped narrow(job_from(bay_job("", can_at(32, 40), "9in", "8in")));
  const MovedLayout moved = moved_in(narrow, {k_inch * Vector2d(44, 40)});
  REQUIRE(moved.all_fit);
  CHECK(moved.positions_m[0].x() == Approx(48.5 * k_inch).margin(2 * k_touch_m));
}

TEST_CASE("moved layout: in a turned room rows and columns move along their walls", "[placing][property]") {
  const double turn = 0.3;
  const Eigen::Rotation2Dd rotation(turn);
  const Mapped upright(job_from(bay_job("", can_at(32, 40))));
  Job job = upright.job;
  for (Vector2d& corner : job.room.corners_m) corner = rotation * corner;
  const Mapped turned(job);
  for (int columns = 1; columns <= 7; ++columns) {
    CAPTURE(columns);
    const MovedLayout moved = moved_in(upright, even_layout(upright.job.room.corners_m, 2, columns).positions_m);
    const MovedLayout image = moved_in(turned, even_layout(job.room.corners_m, 2, columns).positions_m);
    REQUIRE(image.all_fit == moved.all_fit);
    REQUIRE(image.moves.size() == moved.moves.size());
    for (std::size_t i = 0; i < moved.moves.size(); ++i) {
      CHECK(image.moves[i].part == moved.moves[i].part);
      CHECK(image.moves[i].number == moved.moves[i].number);
      CHECK((rotation * moved.moves[i].by_m - image.moves[i].by_m).norm() < 4 * k_touch_m);
    }
  }
}
