#include "evenlit/placing/layouts.hpp"

#include <fmt/format.h>

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "evenlit/placing/ceiling_map.hpp"
#include "grid_layouts.hpp"

namespace evenlit {
namespace {

using Eigen::AlignedBox2d;
using Eigen::Vector2d;

constexpr double k_nearly_square = 1.5;
constexpr double k_most_places = 400;  ///< of a grid before places are dropped

/// Where rows or columns stand along a side of the rectangle.
struct Stations {
  double wall_m = 0;
  double offset_m = 0;
  double spacing_m = 0;

  [[nodiscard]] double at(double index) const { return wall_m + offset_m + index * spacing_m; }
};

Stations even_stations(double low_m, double high_m, int count) {
  const double spacing_m = (high_m - low_m) / count;
  return {low_m, spacing_m / 2, spacing_m};
}

Stations offset_stations(double low_m, double high_m, int count, double offset_m) {
  if (count == 1) return even_stations(low_m, high_m, 1);
  return {low_m, offset_m, (high_m - low_m - 2 * offset_m) / (count - 1)};
}

/// What the plan keeps of a grid, which has no places yet.
class Kept {
 public:
  Kept(const Polygon& plan_m, double least_m) : plan_(plan_m), least_m_(least_m) {}

  void add(const Vector2d& place_m) {
    if (is_inside(plan_, place_m) && distance_to_outline(plan_, place_m) >= least_m_ - k_touch_m) {
      places_.push_back(place_m);
    }
  }

  [[nodiscard]] std::vector<Vector2d> take() && { return std::move(places_); }

 private:
  const Polygon& plan_;
  double least_m_;
  std::vector<Vector2d> places_;
};

Layout grid_of(std::string name, int rows, int columns, const Stations& x, const Stations& y) {
  return {.name = std::move(name),
          .rows = rows,
          .columns = columns,
          .spacing_m = {x.spacing_m, y.spacing_m},
          .wall_offset_m = {x.offset_m, y.offset_m}};
}

/// At the given offset, the places for which `has(row, column)`.
template <class Has>
Layout offset_grid(const Polygon& plan_m, const std::string& name, int rows, int columns, double wall_offset_m,
                   const Has& has) {
  const AlignedBox2d box = bounds_of(plan_m);
  const Stations x = offset_stations(box.min().x(), box.max().x(), columns, wall_offset_m);
  const Stations y = offset_stations(box.min().y(), box.max().y(), rows, wall_offset_m);
  Layout layout = grid_of(name, rows, columns, x, y);
  if (layout.spacing_m.minCoeff() < k_touch_m) return layout;
  Kept kept(plan_m, wall_offset_m);
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      if (has(row, column)) kept.add({x.at(column), y.at(row)});
    }
  }
  layout.positions_m = std::move(kept).take();
  return layout;
}

/// Every second row has `fewer` cans less and begins half of that many spacings later.
Layout even_grid(const Polygon& plan_m, const std::string& name, int rows, int columns, int fewer) {
  const AlignedBox2d box = bounds_of(plan_m);
  const Stations x = even_stations(box.min().x(), box.max().x(), columns);
  const Stations y = even_stations(box.min().y(), box.max().y(), rows);
  Layout layout = grid_of(name, rows, columns, x, y);
  Kept kept(plan_m, layout.wall_offset_m.minCoeff() / 2);
  for (int row = 0; row < rows; ++row) {
    const int less = row % 2 == 0 ? 0 : fewer;
    for (int column = 0; column < columns - less; ++column) kept.add({x.at(column + less / 2.0), y.at(row)});
  }
  layout.positions_m = std::move(kept).take();
  return layout;
}

/// The grids that keep `count` places, those with the most nearly square spacing first.
template <class Make>
std::vector<Layout> grids_that_keep(const Polygon& plan_m, int count, const Make& make) {
  // A grid over the bounding rectangle keeps about the plan's share of it: twice that many places leave room for rows
  // that have fewer and for what stands too near to a wall.
  const double share = signed_area(plan_m) / bounds_of(plan_m).volume();
  const int most_places = static_cast<int>(std::min(std::ceil(2 * count / share), k_most_places));
  std::vector<Layout> found;
  for (int rows = 1; rows <= std::min(most_places, 2 * count); ++rows) {
    for (int columns = 1; columns <= std::min(most_places / rows, 2 * count); ++columns) {
      Layout layout = make(rows, columns);
      if (std::ssize(layout.positions_m) == count) found.push_back(std::move(layout));
    }
  }
  std::ranges::stable_sort(found, {}, spacing_ratio);
  return found;
}

bool has_same_places(const Layout& a, const Layout& b) {
  return std::ranges::equal(a.positions_m, b.positions_m,
                            [](const Vector2d& p, const Vector2d& q) { return (p - q).norm() < k_touch_m; });
}

/// The layouts of one count that are worth comparing.
std::vector<Layout> layouts_of_count(const Polygon& plan_m, int count) {
  std::vector<Layout> layouts;
  const auto add = [&](const Layout& layout) {
    if (std::ssize(layout.positions_m) == count) layouts.push_back(layout);
  };
  const auto add_nearly_square = [&](const Layout& layout) {
    if (spacing_ratio(layout) < k_nearly_square) add(layout);
  };
  const std::vector<Layout> even = even_layouts(plan_m, count);
  if (!even.empty()) {
    add(even[0]);
    if (even.size() > 1) add_nearly_square(even[1]);
    add(offset_layout(plan_m, even[0].rows, even[0].columns, k_usual_wall_offset_m));
  }
  const auto staggered = grids_that_keep(plan_m, count, [&](int rows, int columns) {
    return rows > 1 && columns > 1 ? staggered_layout(plan_m, rows, columns) : Layout{};
  });
  if (!staggered.empty()) add_nearly_square(staggered[0]);
  std::vector<Layout> rings;
  for (int rows = 3; rows + 3 <= count / 2 + 2; ++rows) {
    rings.push_back(perimeter_layout(plan_m, rows, count / 2 + 2 - rows, k_usual_wall_offset_m));
  }
  std::ranges::stable_sort(rings, {}, spacing_ratio);
  if (!rings.empty()) add_nearly_square(rings[0]);
  if (count == 5) add(five_layout(plan_m));
  return layouts;
}

}  // namespace

std::string grid_name(int rows, int columns) {
  if (columns == 1) return rows == 1 ? "one in the middle" : fmt::format("column of {}", rows);
  return rows == 1 ? fmt::format("row of {}", columns) : fmt::format("{} rows of {}", rows, columns);
}

Layout even_layout(const Polygon& plan_m, int rows, int columns) {
  return even_grid(plan_m, grid_name(rows, columns) + ", even", rows, columns, 0);
}

Layout offset_layout(const Polygon& plan_m, int rows, int columns, double wall_offset_m) {
  return offset_grid(plan_m, grid_name(rows, columns) + ", offset", rows, columns, wall_offset_m,
                     [](int, int) { return true; });
}

Layout perimeter_layout(const Polygon& plan_m, int rows, int columns, double wall_offset_m) {
  return offset_grid(
      plan_m, fmt::format("round the walls, {} x {}", columns, rows), rows, columns, wall_offset_m,
      [&](int row, int column) { return row == 0 || row == rows - 1 || column == 0 || column == columns - 1; });
}

Layout staggered_layout(const Polygon& plan_m, int rows, int columns) {
  return even_grid(plan_m, fmt::format("{} rows of {} and {}", rows, columns, columns - 1), rows, columns, 1);
}

Layout five_layout(const Polygon& plan_m) {
  Layout layout = even_grid(plan_m, "five on a die", 2, 2, 0);
  Kept kept(plan_m, layout.wall_offset_m.minCoeff() / 2);
  kept.add(bounds_of(plan_m).center());
  const std::vector<Vector2d> middle = std::move(kept).take();
  const auto second_row = std::ranges::find_if(
      layout.positions_m, [&](const Vector2d& place) { return place.y() > bounds_of(plan_m).center().y(); });
  layout.positions_m.insert(second_row, middle.begin(), middle.end());
  return layout;
}

std::optional<Layout> half_height_layout(const Polygon& plan_m, double ceiling_m) {
  const Eigen::Array2d counts = (bounds_of(plan_m).sizes().array() / (ceiling_m / 2) - k_touch_m).ceil().max(1.0);
  if (counts.prod() > k_most_places) return std::nullopt;
  const int columns = static_cast<int>(counts.x());
  const int rows = static_cast<int>(counts.y());
  return even_grid(plan_m, grid_name(rows, columns) + ", half height", rows, columns, 0);
}

bool has_spacing(const Layout& layout, int axis) {
  return (axis == 0 ? layout.columns : layout.rows) > 1 && layout.spacing_m[axis] > 0;
}

double spacing_ratio(const Layout& layout) { return layout.spacing_m.maxCoeff() / layout.spacing_m.minCoeff(); }

std::vector<Layout> even_layouts(const Polygon& plan_m, int count) {
  return grids_that_keep(plan_m, count, [&](int rows, int columns) { return even_layout(plan_m, rows, columns); });
}

LayoutChoice layouts_to_compare(const Polygon& plan_m, double ceiling_m, std::span<const int> counts) {
  LayoutChoice choice;
  const auto add = [&](const Layout& layout) {
    const bool is_known =
        std::ranges::any_of(choice.layouts, [&](const Layout& other) { return has_same_places(layout, other); });
    if (!is_known) choice.layouts.push_back(layout);
  };
  for (const int count : counts) {
    const std::vector<Layout> layouts = layouts_of_count(plan_m, count);
    std::ranges::for_each(layouts, add);
    if (layouts.empty()) choice.without_layout.push_back(count);
  }
  const auto by_height = half_height_layout(plan_m, ceiling_m);
  if (by_height && !by_height->positions_m.empty() && by_height->positions_m.size() <= k_most_counted) add(*by_height);
  return choice;
}

}  // namespace evenlit
