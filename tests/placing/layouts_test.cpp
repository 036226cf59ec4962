#include "evenlit/placing/layouts.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <random>
#include <set>

using namespace evenlit;

namespace {

using Eigen::Vector2d;

/// Rounding of a few operations on lengths of some metres.
constexpr double k_rounding_m = 1e-12;

Polygon rectangle(double width_m, double depth_m, const Vector2d& corner_m = Vector2d::Zero()) {
  return {corner_m, corner_m + Vector2d(width_m, 0), corner_m + Vector2d(width_m, depth_m),
          corner_m + Vector2d(0, depth_m)};
}

/// A square of 6 m without its northeast quarter.
const Polygon k_l{{0, 0}, {6, 0}, {6, 3}, {3, 3}, {3, 6}, {0, 6}};

std::vector<Polygon> random_rectangles() {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> size_m(2, 9);
  std::uniform_real_distribution<double> corner_m(-5, 5);
  std::vector<Polygon> plans;
  for (int i = 0; i < 20; ++i) {
    const Vector2d corner(corner_m(random), corner_m(random));
    const double width = size_m(random);
    plans.push_back(rectangle(width, size_m(random), corner));
  }
  return plans;
}

bool has_place(const Layout& layout, const Vector2d& place_m) {
  return std::ranges::any_of(layout.positions_m,
                             [&](const Vector2d& each) { return (each - place_m).norm() < 10 * k_rounding_m; });
}

}  // namespace

TEST_CASE("layouts: even spacing is w/n, half of it at the walls", "[placing][property]") {
  for (const Polygon& plan : random_rectangles()) {
    const Vector2d size_m = plan[2] - plan[0];
    for (int rows = 1; rows <= 5; ++rows) {
      for (int columns = 1; columns <= 8; ++columns) {
        const Layout layout = even_layout(plan, rows, columns);
        REQUIRE(std::ssize(layout.positions_m) == rows * columns);
        const Vector2d counts(columns, rows);
        CHECK((layout.spacing_m - size_m.cwiseQuotient(counts)).norm() < k_rounding_m);
        CHECK((layout.wall_offset_m - size_m.cwiseQuotient(2 * counts)).norm() < k_rounding_m);
        CHECK((layout.positions_m.front() - plan[0] - layout.wall_offset_m).norm() < k_rounding_m);
        CHECK((plan[2] - layout.positions_m.back() - layout.wall_offset_m).norm() < 10 * k_rounding_m);
      }
    }
  }
}

TEST_CASE("layouts: a rectangle has for every count its factorisations, the most nearly square first",
          "[placing][property]") {
  for (const Polygon& plan : random_rectangles()) {
    for (int count = 1; count <= k_most_counted; ++count) {
      const std::vector<Layout> layouts = even_layouts(plan, count);
      std::set<int> rows;
      for (const Layout& layout : layouts) {
        CHECK(layout.rows * layout.columns == count);
        CHECK(std::ssize(layout.positions_m) == count);
        rows.insert(layout.rows);
      }
      int divisors = 0;
      for (int n = 1; n <= count; ++n) divisors += count % n == 0 ? 1 : 0;
      CHECK(std::ssize(rows) == divisors);
      CHECK(std::ssize(layouts) == divisors);
      CHECK(std::ranges::is_sorted(layouts, {}, spacing_ratio));
    }
  }
}

TEST_CASE("layouts: in a rectangle they are symmetric about the centre lines", "[placing][property]") {
  for (const Polygon& plan : random_rectangles()) {
    const Vector2d both = plan[0] + plan[2];
    for (int rows = 1; rows <= 5; ++rows) {
      for (int columns = 1; columns <= 5; ++columns) {
        const bool is_staggered_upright = rows % 2 == 1;
        for (const Layout& layout :
             {even_layout(plan, rows, columns), offset_layout(plan, rows, columns, 0.7),
              perimeter_layout(plan, rows, columns, 0.5), staggered_layout(plan, rows, columns), five_layout(plan)}) {
          INFO(layout.name);
          REQUIRE_FALSE(layout.positions_m.empty());
          const bool is_staggered = layout.name == staggered_layout(plan, rows, columns).name;
          for (const Vector2d& place : layout.positions_m) {
            CHECK(is_inside(plan, place));
            CHECK(has_place(layout, {both.x() - place.x(), place.y()}));
            // Of an even number of staggered rows the first is full, the last is not.
            if (!is_staggered || is_staggered_upright) CHECK(has_place(layout, {place.x(), both.y() - place.y()}));
          }
        }
      }
    }
  }
}

TEST_CASE("layouts: a given wall offset, even spacing between", "[placing][exact]") {
  const Layout layout = offset_layout(rectangle(6, 4), 2, 3, 0.75);
  CHECK(layout.spacing_m == Vector2d(2.25, 2.5));
  CHECK(layout.wall_offset_m == Vector2d(0.75, 0.75));
  CHECK(layout.positions_m == Polygon{{0.75, 0.75}, {3, 0.75}, {5.25, 0.75}, {0.75, 3.25}, {3, 3.25}, {5.25, 3.25}});
  // A single row stands in the middle; no two cans fall together, and none comes nearer to a wall.
  CHECK(offset_layout(rectangle(6, 4), 1, 2, 0.75).positions_m == Polygon{{0.75, 2}, {5.25, 2}});
  CHECK(offset_layout(rectangle(6, 4), 2, 3, 2).positions_m.empty());
  CHECK(offset_layout(rectangle(6, 4), 2, 3, 2.5).positions_m.empty());
  CHECK(offset_layout(rectangle(6, 4), 1, 3, 2.5).positions_m.empty());
}

TEST_CASE("layouts: round the walls, staggered, five on a die", "[placing][exact]") {
  const Layout ring = perimeter_layout(rectangle(6, 4), 3, 4, 1);
  CHECK(ring.positions_m.size() == 10);
  for (const Vector2d& place : ring.positions_m) {
    CHECK(distance_to_outline(rectangle(6, 4), place) == Approx(1).margin(k_rounding_m));
  }
  CHECK(staggered_layout(rectangle(6, 4), 2, 3).positions_m == Polygon{{1, 1}, {3, 1}, {5, 1}, {2, 3}, {4, 3}});
  CHECK(five_layout(rectangle(6, 4)).positions_m == Polygon{{1.5, 1}, {4.5, 1}, {3, 2}, {1.5, 3}, {4.5, 3}});
}

TEST_CASE("layouts: no farther apart than half the ceiling's height", "[placing][property]") {
  for (const Polygon& plan : random_rectangles()) {
    const auto layout = half_height_layout(plan, 2.4);
    REQUIRE(layout);
    const Vector2d size_m = plan[2] - plan[0];
    CHECK(layout->spacing_m.maxCoeff() <= 1.2 + 1e-5);
    // With one fewer they would be farther.
    if (layout->columns > 1) CHECK(size_m.x() / (layout->columns - 1) > 1.2);
    if (layout->rows > 1) CHECK(size_m.y() / (layout->rows - 1) > 1.2);
  }
  CHECK(half_height_layout(rectangle(6, 4.8), 2.4)->positions_m.size() == 20);
  CHECK_FALSE(half_height_layout(rectangle(60, 60), 2.4));
}

TEST_CASE("layouts: an L keeps what is in it and not too near to its walls", "[placing][property]") {
  CHECK(even_layout(k_l, 2, 2).positions_m == Polygon{{1.5, 1.5}, {4.5, 1.5}, {1.5, 4.5}});
  // 1.5 m from the west wall are 1.5 m from the inner one; of three columns the middle one is on it.
  CHECK(even_layout(k_l, 3, 3).positions_m == Polygon{{1, 1}, {3, 1}, {5, 1}, {1, 3}, {1, 5}});
  for (int count = 1; count <= k_most_counted; ++count) {
    for (const Layout& layout : even_layouts(k_l, count)) {
      CHECK(std::ssize(layout.positions_m) == count);
      for (const Vector2d& place : layout.positions_m) {
        CHECK(is_inside(k_l, place));
        CHECK(distance_to_outline(k_l, place) >= layout.wall_offset_m.minCoeff() / 2 - 1e-6);
      }
    }
  }
}

TEST_CASE("layouts to compare have the counts asked for, no two the same places", "[placing][property]") {
  std::vector<int> counts;
  for (int count = 1; count <= k_most_counted; ++count) counts.push_back(count);
  for (const Polygon& plan : {rectangle(5.5, 4), rectangle(6, 6), rectangle(9, 1.2), k_l}) {
    const LayoutChoice choice = layouts_to_compare(plan, 2.4, counts);
    std::set<int> found;
    for (const Layout& layout : choice.layouts) {
      INFO(layout.name);
      found.insert(static_cast<int>(layout.positions_m.size()));
      CHECK(std::ranges::count(choice.layouts, layout.positions_m, &Layout::positions_m) == 1);
      for (const Vector2d& place : layout.positions_m) CHECK(is_inside(plan, place));
    }
    for (const int count : counts) {
      CHECK(found.contains(count) != (std::ranges::count(choice.without_layout, count) == 1));
    }
    if (plan.size() == 4) CHECK(choice.without_layout.empty());
  }
  const std::array five{5};
  const LayoutChoice choice = layouts_to_compare(rectangle(5, 4), 9, five);
  CHECK(std::ranges::count(choice.layouts, "five on a die", &Layout::name) == 1);
}
