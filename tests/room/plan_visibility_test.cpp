#include "evenlit/room/plan_visibility.hpp"

#include <array>
#include <catch2/catch.hpp>

using namespace evenlit;
using Eigen::Vector2d;

namespace {
const Polygon k_l_shape{{0, 0}, {6, 0}, {6, 2}, {2, 2}, {2, 6}, {0, 6}};
}

TEST_CASE("in a convex room everything is in sight", "[room][exact]") {
  const PlanVisibility box({{0, 0}, {4, 0}, {5, 2}, {4, 4}, {0, 4}});
  CHECK(box.is_always_clear());
  CHECK(box.is_clear({0, 0}, {5, 2}));
}

TEST_CASE("the inner corner of an L hides what lies behind it", "[room][exact]") {
  const PlanVisibility l(k_l_shape);
  CHECK_FALSE(l.is_always_clear());
  CHECK(l.is_clear({1, 1}, {5, 1}));
  CHECK(l.is_clear({1, 5}, {1, 1}));
  CHECK_FALSE(l.is_clear({1, 5}, {5, 1}));
  CHECK(l.is_clear({0.5, 3}, {3, 0.5}));
  CHECK_FALSE(l.is_clear({1.5, 3}, {3, 1.5}));
}

TEST_CASE("standing on a wall does not hide, whichever way one looks", "[room][exact]") {
  const PlanVisibility l(k_l_shape);
  CHECK(l.is_clear({4, 2}, {1, 1}));         // from the wall into the room
  CHECK(l.is_clear({3, 2}, {5, 2}));         // along the wall
  CHECK(l.is_clear({4, 2 + 1e-8}, {1, 1}));  // rounded a little behind the wall
}

TEST_CASE("sight goes both ways", "[room][property]") {
  const PlanVisibility l(k_l_shape);
  for (double t = 0.05; t < 1; t += 0.1) {
    for (double u = 0.05; u < 1; u += 0.1) {
      const Vector2d a(0.3 + t, 5 - t);
      const Vector2d b(5 - u, 0.2 + u);
      CHECK(l.is_clear(a, b) == l.is_clear(b, a));
    }
  }
}

TEST_CASE("figures are clear, hidden or mixed", "[room][exact]") {
  const PlanVisibility l(k_l_shape);
  const std::array<Vector2d, 1> eye{Vector2d(5, 1)};
  const auto square_at = [](double x, double y) {
    return std::array<Vector2d, 4>{Vector2d(x, y), {x + 0.5, y}, {x + 0.5, y + 0.5}, {x, y + 0.5}};
  };
  CHECK(l.sight(eye, square_at(1, 1)) == Sight::clear);
  CHECK(l.sight(eye, square_at(1, 5)) == Sight::hidden);
  CHECK(l.sight(eye, square_at(0.1, 2.3)) == Sight::mixed);
}
