#include "evenlit/room/visibility.hpp"

#include <array>
#include <catch2/catch.hpp>

using namespace evenlit;
using Eigen::Vector2d;
using Eigen::Vector3d;

namespace {

const Polygon k_plan{{0, 0}, {6, 0}, {6, 4}, {0, 4}};

Box screen(double x, double height) {
  return {.name = "screen", .centre_m = {x, 2}, .half_m = {0.05, 2}, .bottom_m = 0, .top_m = height, .reflectance = 0};
}

/// A square facing along x.
struct Square {
  std::array<Vector3d, 4> corners;
  std::array<Vector2d, 4> plan;

  Square(double x, double y, double z, double side) {
    corners = {Vector3d(x, y, z), {x, y + side, z}, {x, y + side, z + side}, {x, y, z + side}};
    for (int i = 0; i < 4; ++i) plan[i] = corners[i].head<2>();
  }
  Figure figure() const {
    const Vector3d centre = (corners[0] + corners[2]) / 2;
    return {.centre_m = centre, .radius_m = (corners[0] - centre).norm(), .corners_m = corners, .plan_m = plan};
  }
};

}  // namespace

TEST_CASE("without boxes in a convex room nothing is ever hidden", "[room][exact]") {
  CHECK(Visibility(k_plan, {}).is_always_clear());
  CHECK_FALSE(Visibility(k_plan, {screen(3, 1)}).is_always_clear());
}

TEST_CASE("a screen hides what is low behind it", "[room][exact]") {
  const Visibility room(k_plan, {screen(3, 1.5)});
  CHECK(room.is_clear({1, 2, 1}, {2, 2, 1}));
  CHECK_FALSE(room.is_clear({1, 2, 1}, {5, 2, 1}));
  CHECK(room.is_clear({1, 2, 2}, {5, 2, 1.6}));
  CHECK_FALSE(room.is_clear({1, 2, 2.4}, {3.5, 2, 0.5}));
  CHECK(room.is_clear({3.05, 1, 1}, {5, 2, 1}));  // from the screen's own face
  CHECK(room.is_clear({3, 1, 1.5}, {5, 2, 2}));
}

TEST_CASE("figures beside a box are clear, behind it hidden, at its edge mixed", "[room][exact]") {
  const Visibility room(k_plan, {screen(3, 1.5)});
  const Square here(1, 1, 0.5, 0.3);
  CHECK(room.view(here.figure(), Square(2, 1, 0.5, 0.3).figure()).sight == Sight::clear);
  CHECK(room.view(here.figure(), Square(5, 1, 0.5, 0.3).figure()).sight == Sight::hidden);
  CHECK(room.view(here.figure(), Square(5, 1, 2.2, 0.2).figure()).sight != Sight::hidden);
  const auto at_edge = room.view(Square(1, 1, 1.3, 0.4).figure(), Square(5, 1, 1.3, 0.4).figure());
  CHECK(at_edge.sight == Sight::mixed);
  CHECK(at_edge.obstacles == Obstacles{0});
}
