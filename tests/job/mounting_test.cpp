#include "evenlit/job/mounting.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace evenlit;
using Eigen::Vector3d;

namespace {

const Shape k_shed{
    "", {{0, 0}, {6, 0}, {6, 4}, {0, 4}}, {"south", "east", "north", "west"}, {}, {{"west", 2, 8.0 / 12}}};
const Ceiling k_ceiling = ceiling_of(k_shed);

Can can_at(double from_west_m) {
  Can can;
  can.from[0] = {"west", from_west_m};
  can.from[1] = {"south", 1};
  return can;
}

Obstruction cabinet() {
  Obstruction box;
  box.name = "cabinet";
  box.from[0] = {"west", 0};
  box.from[1] = {"south", 0};
  box.width_m = 1;
  box.depth_m = 2;
  box.bottom_m = 1.4;
  box.top_m = 2.1;
  return box;
}

}  // namespace

TEST_CASE("mounting: flush with the ceiling, hanging below it, or at a height of its own", "[job][exact]") {
  Can can = can_at(3);
  CHECK(mounting(k_shed, k_ceiling, can)->opening_m.isApprox(Vector3d(3, 1, 4), 1e-15));
  can.drop_m = 0.5;
  CHECK(mounting(k_shed, k_ceiling, can)->opening_m.isApprox(Vector3d(3, 1, 3.5), 1e-15));
  can.drop_m.reset();
  can.height_m = 1.2;
  CHECK(mounting(k_shed, k_ceiling, can)->opening_m == Vector3d(3, 1, 1.2));
}

TEST_CASE("mounting: square to the ceiling is tilted by its pitch, toward where it rises", "[job][exact]") {
  Can can = can_at(3);
  can.is_square = true;
  const auto shed = mounting(k_shed, k_ceiling, can).value();
  CHECK(shed.tilt_deg == Approx(std::atan(8.0 / 12) * 180 / std::numbers::pi).epsilon(1e-14));
  CHECK(shed.toward_deg == 0);  // east, away from the west wall
  Shape level = k_shed;
  level.slopes.clear();
  level.ceiling_m = 2.4;
  const auto flat = mounting(level, ceiling_of(level), can).value();
  CHECK(flat.tilt_deg == 0);
  CHECK(flat.toward_deg == 0);
}

TEST_CASE("mounting: without walls to measure from there is none", "[job][exact]") {
  Can can = can_at(3);
  can.from[1].wall = "east";
  CHECK_FALSE(mounting(k_shed, k_ceiling, can));
}

TEST_CASE("mounting: under, on and beside an obstruction is outside of it", "[job][exact]") {
  const std::vector<Obstruction> boxes{cabinet()};
  const auto is_around = [&](const Vector3d& point) { return obstruction_around(boxes, k_shed, k_ceiling, point); };
  CHECK(is_around({0.5, 1, 1.8}) == &boxes[0]);
  CHECK(is_around({0.5, 1, 1.4}) == nullptr);
  CHECK(is_around({0.5, 1, 2.1}) == nullptr);
  CHECK(is_around({1, 1, 1.8}) == nullptr);
  CHECK(is_around({0.5, 2, 1.8}) == nullptr);
}

TEST_CASE("mounting: above an obstruction that reaches the ceiling there is no space", "[job][exact]") {
  std::vector<Obstruction> boxes{cabinet()};
  boxes[0].top_m = 2.2;  // the ceiling is at 2.2 m over x = 0.3 m
  CHECK(obstruction_around(boxes, k_shed, k_ceiling, {0.15, 1, 2.1}) == &boxes[0]);
  CHECK(obstruction_around(boxes, k_shed, k_ceiling, {0.3, 1, 2.2}) == &boxes[0]);
  CHECK(obstruction_around(boxes, k_shed, k_ceiling, {0.6, 1, 2.4}) == nullptr);
  boxes[0].turn_deg = 90;  // about (0.5, 1): x -0.5...1.5, y 0.5...1.5
  CHECK(obstruction_around(boxes, k_shed, k_ceiling, {1.4, 1, 2}) == &boxes[0]);
  CHECK(obstruction_around(boxes, k_shed, k_ceiling, {0.5, 0.2, 2}) == nullptr);
}
