#include "evenlit/wiring/cable_rules.hpp"

#include <catch2/catch.hpp>

#include "evenlit/base/length.hpp"

using namespace evenlit;

namespace {

constexpr double k_in = k_metres_per_inch;

}  // namespace

TEST_CASE("box fill: worked examples of NEC 314.16(B)", "[wiring][published]") {
  // Quarters of cubic inches are exact in doubles.
  const BoxFill of_14 = box_fill({{14, 2}, {14, 2}, {14, 2}}, 1, 22.5);
  CHECK(of_14.conductors == 6);
  CHECK(of_14.grounds == 1);
  CHECK(of_14.needed_in3 == 20.00);
  CHECK_FALSE(of_14.is_too_small());
  CHECK(box_fill({{12, 2}, {12, 2}, {12, 2}}, 1, {}).needed_in3 == 22.50);
  CHECK(box_fill({{12, 2}, {12, 2}}, 1, {}).needed_in3 == 18.0);
}

TEST_CASE("box fill: a box that is a hair too small is too small, one of just the volume fits", "[wiring][exact]") {
  const std::vector<CableKind> cables{{14, 2}, {14, 2}, {14, 2}};
  CHECK(box_fill(cables, 1, 18).is_too_small());
  CHECK_FALSE(box_fill(cables, 1, 20).is_too_small());
  CHECK_FALSE(box_fill(cables, 1, {}).is_too_small());
}

TEST_CASE("box fill: grounds count as one up to four, then a quarter each", "[wiring][published]") {
  // NEC 314.16(B)(5), from memory.
  for (const auto& [cables, grounds] : {std::pair{1, 1.0}, {4, 1.0}, {5, 1.25}, {6, 1.5}}) {
    CHECK(box_fill(std::vector<CableKind>(static_cast<std::size_t>(cables), {14, 2}), 1, {}).grounds == grounds);
  }
}

TEST_CASE("box fill: a red wire counts as one wire more", "[wiring][property]") {
  for (const int awg : {14, 12, 10}) {
    const double two = box_fill({{awg, 2}, {awg, 2}}, 1, {}).needed_in3;
    CHECK(box_fill({{awg, 2}, {awg, 3}}, 1, {}).needed_in3 == two + conductor_volume_in3(awg));
  }
}

TEST_CASE("joist holes: a third of the depth, two inches of wood, a plate below one and a quarter",
          "[wiring][published]") {
  // IRC R502.8.1 and NEC 300.4(A)(1) on dimension lumber of DOC PS 20: 2x4, 2x6, 2x10.
  const JoistHole of_ten = joist_hole(9.25 * k_in, 0.75 * k_in);
  CHECK(of_ten.most_hole_m == Approx(3.0833 * k_in).epsilon(1e-4));  // four digits printed
  CHECK(of_ten.edge_m == Approx(4.25 * k_in).epsilon(1e-12));
  CHECK(of_ten.is_allowed);
  CHECK_FALSE(of_ten.needs_plate);
  CHECK(joist_hole(5.5 * k_in, 0.75 * k_in).is_allowed);          // 2-3/8 in left
  const JoistHole of_four = joist_hole(3.5 * k_in, 0.75 * k_in);  // 1-3/8 in left
  CHECK_FALSE(of_four.is_allowed);
  CHECK_FALSE(of_four.needs_plate);
  CHECK(joist_hole(3 * k_in, 0.75 * k_in).needs_plate);  // 1-1/8 in left
}

TEST_CASE("joist holes: a limit that is just met is met, one that is just missed is not", "[wiring][exact]") {
  CHECK(joist_hole(4.75 * k_in, 0.75 * k_in).is_allowed);         // 2 in left
  CHECK_FALSE(joist_hole(4.625 * k_in, 0.75 * k_in).is_allowed);  // 1-15/16 in left
  CHECK(joist_hole(9.25 * k_in, 9.25 * k_in / 3).is_allowed);
  CHECK_FALSE(joist_hole(9.25 * k_in, 3.125 * k_in).is_allowed);
  CHECK_FALSE(joist_hole(3.25 * k_in, 0.75 * k_in).needs_plate);  // 1-1/4 in left
}

TEST_CASE("staples: within a foot of both boxes and no more than four and a half feet apart", "[wiring][exact]") {
  // NEC 334.30. By hand: one in the middle of 2 ft; at 1 ft and 5-1/2 ft of 6-1/2 ft; one more beyond that.
  CHECK(staples(0) == 1);
  CHECK(staples(24 * k_in) == 1);
  CHECK(staples(25 * k_in) == 2);
  CHECK(staples(78 * k_in) == 2);
  CHECK(staples(79 * k_in) == 3);
  CHECK(staples(132 * k_in) == 3);
}

TEST_CASE("staples: so many can be spaced by the rule, one fewer cannot", "[wiring][property]") {
  for (int inches = 25; inches < 2000; inches += 7) {
    const int count = staples(inches * k_in);
    // The farthest that a number of staples reaches: a foot at each end and 54 in between neighbours.
    CHECK(24 + 54 * (count - 1) >= inches);
    CHECK(24 + 54 * (count - 2) < inches);
  }
}
