#include "evenlit/placing/layouts.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <set>

#include "evenlit/placing/plan_frame.hpp"
#include "plans.hpp"

using namespace evenlit;

namespace {

using Eigen::Vector2d;

/// Rounding of a few operations on lengths of some metres.
constexpr double k_rounding_m = 1e-12;

Polygon rectangle(double width_m, double depth_m, const Vector2d& corner_m = Vector2d::Zero()) {
  return {corner_m, corner_m + Vector2d(width_m, 0), corner_m + Vector2d(width_m, depth_m),
          corner_m + Vector2d(0, depth_m)};
}

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
      CHECK(std::ranges::is_sorted(layouts, {},
                                   [](const Layout& each) { return std::round(1e9 * spacing_ratio(each)); }));
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

TEST_CASE("layouts: two equal rectangles get equal grids", "[placing][exact]") {
  // 3 m x 6 m beside 6 m x 3 m: two, eight and eighteen cans are squares of 3 m, 1.5 m and 1 m in each.
  const Polygon plan{{0, 0}, {9, 0}, {9, 3}, {3, 3}, {3, 6}, {0, 6}};
  for (const int n : {1, 2, 3}) {
    const auto layout = parted_layout(plan, 4 * n * n);
    REQUIRE(layout);
    REQUIRE(layout->parts.size() == 2);
    CHECK(layout->parts[0].rows == 2 * n);
    CHECK(layout->parts[0].columns == n);
    CHECK(layout->parts[1].rows == n);
    CHECK(layout->parts[1].columns == 2 * n);
    for (const LayoutPart& part : layout->parts) {
      CHECK((part.spacing_m - Vector2d(3.0 / n, 3.0 / n)).norm() < k_rounding_m);
    }
  }
}

TEST_CASE("layouts: the shares of a plan's rectangles are the count, each inside, whatever the count",
          "[placing][property]") {
  for (const Polygon& plan : {k_l, k_t, k_u, k_z, k_cross, k_stair}) {
    for (int count = 1; count <= k_most_counted; ++count) {
      const auto layout = parted_layout(plan, count);
      REQUIRE(layout);
      CHECK(std::ssize(layout->positions_m) == count);
      int shares = 0;
      for (const LayoutPart& part : layout->parts) shares += part.rows * part.columns;
      CHECK(shares == count);
      for (const Vector2d& place : layout->positions_m) {
        CHECK(is_inside(plan, place));
        CHECK(distance_to_outline(plan, place) > 0.1);
      }
    }
  }
  CHECK_FALSE(parted_layout(rectangle(6, 4), 6));
}

TEST_CASE("layouts: no other sharing of an L brings the floor nearer to cans", "[placing][property]") {
  // By trying every pair of grids; a cell of a x b has a mean squared distance of (a^2 + b^2) / 12 to its middle.
  const std::vector<Eigen::AlignedBox2d> boxes = rectangles_of(k_l);
  REQUIRE(boxes.size() == 2);
  const auto squared = [](const Vector2d& sides_m, int rows, int columns) {
    return sides_m.prod() * (std::pow(sides_m.x() / columns, 2) + std::pow(sides_m.y() / rows, 2)) / 12;
  };
  for (int count = 2; count <= 12; ++count) {
    CAPTURE(count);
    double least = 1e9;
    for (int first = 1; first < count; ++first) {
      for (int rows = 1; rows <= first; ++rows) {
        for (int other_rows = 1; other_rows <= count - first; ++other_rows) {
          if (first % rows != 0 || (count - first) % other_rows != 0) continue;
          least = std::min(least, squared(boxes[0].sizes(), rows, first / rows) +
                                      squared(boxes[1].sizes(), other_rows, (count - first) / other_rows));
        }
      }
    }
    double made = 0;
    const auto layout = parted_layout(k_l, count);
    REQUIRE(layout->parts.size() == 2);
    for (std::size_t i = 0; i < 2; ++i) {
      made += squared(boxes[i].sizes(), layout->parts[i].rows, layout->parts[i].columns);
    }
    CHECK(made == Approx(least).epsilon(1e-9));
  }
}

TEST_CASE("layouts: turning the plan turns every layout", "[placing][property]") {
  const std::array counts{4, 5, 6, 8, 9};
  for (const Polygon& plan : {rectangle(5.5, 4), rectangle(9, 3), k_l, k_t, k_u, k_z}) {
    const LayoutChoice upright = layouts_to_compare(plan, 2.4, counts);
    for (const double turn_deg : {-31.0, 12.0, 44.0}) {
      const LayoutChoice aslant = layouts_to_compare(turned(plan, turn_deg), 2.4, counts);
      REQUIRE(aslant.layouts.size() == upright.layouts.size());
      for (std::size_t i = 0; i < upright.layouts.size(); ++i) {
        INFO(upright.layouts[i].name);
        CHECK(aslant.layouts[i].name == upright.layouts[i].name);
        CHECK((aslant.layouts[i].spacing_m - upright.layouts[i].spacing_m).norm() < 1e-9);
        const Polygon places = turned(upright.layouts[i].positions_m, turn_deg);
        REQUIRE(aslant.layouts[i].positions_m.size() == places.size());
        for (std::size_t can = 0; can < places.size(); ++can) {
          CHECK((aslant.layouts[i].positions_m[can] - places[can]).norm() < 1e-9);
        }
      }
    }
  }
}

TEST_CASE("layouts: a mirrored plan has mirrored shares", "[placing][property]") {
  for (const Polygon& plan : {k_l, k_t, k_u}) {
    for (const int count : {2, 4, 6, 9, 12}) {
      CAPTURE(count);
      const auto layout = parted_layout(plan, count);
      const auto image = parted_layout(mirrored(plan), count);
      // Two arms that are alike may share an odd rest either way.
      std::vector<int> shares;
      std::vector<int> image_shares;
      for (const LayoutPart& part : layout->parts) shares.push_back(part.rows * part.columns);
      for (const LayoutPart& part : image->parts) image_shares.push_back(part.rows * part.columns);
      std::ranges::sort(shares);
      std::ranges::sort(image_shares);
      CHECK(shares == image_shares);
    }
  }
}

TEST_CASE("layouts: in a long room the single row is one of them", "[placing][exact]") {
  const std::array six{6};
  const auto has_row = [&](const Polygon& plan) {
    const auto layouts = layouts_to_compare(plan, 9, six).layouts;
    return std::ranges::count(layouts, "row of 6, even", &Layout::name) == 1;
  };
  CHECK(has_row(rectangle(7.5, 3)));
  CHECK_FALSE(has_row(rectangle(7.4, 3)));
}

TEST_CASE("layouts: the spacing and the wall offset that are wished for", "[placing][exact]") {
  const auto even = spaced_layout(rectangle(6, 4), 1.5, "as asked");
  REQUIRE(even);
  CHECK(even->name == "3 rows of 4, as asked");
  CHECK((even->spacing_m - Vector2d(1.5, 4.0 / 3)).norm() < k_rounding_m);
  // 5 m and 3 m between the outermost, in four and in two steps of at most 1.5 m.
  const auto offset = spaced_offset_layout(rectangle(6, 4), 1.5, 0.5);
  REQUIRE(offset);
  CHECK(offset->rows == 3);
  CHECK(offset->columns == 5);
  CHECK((offset->spacing_m - Vector2d(1.25, 1.5)).norm() < k_rounding_m);
  CHECK(offset->wall_offset_m == Vector2d(0.5, 0.5));
  CHECK_FALSE(spaced_offset_layout(rectangle(6, 4), 1.5, 2));
  CHECK_FALSE(spaced_layout(rectangle(6, 4), 0.01, "as asked"));
  CHECK_FALSE(spaced_offset_layout(rectangle(6, 4), 0.01, 0.5));

  const std::array four{4};
  const LayoutChoice choice = layouts_to_compare(rectangle(6, 4), 9, four, {.widest_m = 1.5, .wall_offset_m = 0.5});
  for (const std::string name : {"2 rows of 2, offset", "3 rows of 5, as asked"}) {
    CHECK(std::ranges::count(choice.layouts, name, &Layout::name) == 1);
  }
  CHECK_FALSE(choice.is_wish_too_close);
  CHECK(layouts_to_compare(rectangle(6, 4), 9, four, {.widest_m = 0.5}).is_wish_too_close);
  for (const Layout& layout : choice.layouts) {
    if (layout.name == "2 rows of 2, offset") CHECK(layout.wall_offset_m == Vector2d(0.5, 0.5));
  }
}

TEST_CASE("layouts: no farther apart in each rectangle of a plan", "[placing][property]") {
  for (const Polygon& plan : {k_l, k_t, k_u, k_z, k_cross}) {
    for (const double widest_m : {1.0, 1.3, 2.2}) {
      const auto layout = spaced_layout(plan, widest_m, "rule");
      REQUIRE(layout);
      CHECK(layout->parts.size() == rectangles_of(plan).size());
      for (const LayoutPart& part : layout->parts) CHECK(part.spacing_m.maxCoeff() <= widest_m + 1e-5);
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
    CHECK(choice.without_layout.empty());
  }
  const std::array five{5};
  const LayoutChoice choice = layouts_to_compare(rectangle(5, 4), 9, five);
  CHECK(std::ranges::count(choice.layouts, "five on a die", &Layout::name) == 1);
}
