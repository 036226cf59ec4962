#include "evenlit/placing/layouts.hpp"

#include <fmt/format.h>

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <limits>

#include "evenlit/placing/ceiling_map.hpp"
#include "evenlit/placing/plan_frame.hpp"
#include "grid_layouts.hpp"

namespace evenlit {
namespace {

using Eigen::AlignedBox2d;
using Eigen::Vector2d;

constexpr double k_long_room = 2.5 - 1e-9;  ///< its length over its width
constexpr double k_most_places = 400;       ///< of a grid before places are dropped

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

/// What is made in the plan's own directions, on the plan.
template <class Make>
Layout in_own_directions(const Polygon& plan_m, const Make& make) {
  const PlanFrame frame = frame_of(plan_m);
  Layout layout = make(frame.in(plan_m));
  layout.along = frame.along;
  for (Vector2d& place : layout.positions_m) place = frame.out(place);
  for (LayoutPart& part : layout.parts) part.centre_m = frame.out(part.centre_m);
  return layout;
}

// Down to the layouts of one count all is in the plan's own directions.

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

/// The grids that keep `count` places, those with the most nearly square spacing first, of equal ones, but for
/// rounding, that with fewer rows.
template <class Make>
std::vector<Layout> grids_that_keep(const Polygon& plan_m, int count, const Make& make) {
  // A grid over the bounding rectangle keeps about the plan's share of it: twice that many places leave room for rows
  // that have fewer and for what stands too near to a wall.
  const double share = signed_area(plan_m) / bounds_of(frame_of(plan_m).in(plan_m)).volume();
  const int most_places = static_cast<int>(std::min(std::ceil(2 * count / share), k_most_places));
  std::vector<Layout> found;
  for (int rows = 1; rows <= std::min(most_places, 2 * count); ++rows) {
    for (int columns = 1; columns <= std::min(most_places / rows, 2 * count); ++columns) {
      Layout layout = make(rows, columns);
      if (std::ssize(layout.positions_m) == count) found.push_back(std::move(layout));
    }
  }
  std::ranges::stable_sort(found, {}, [](const Layout& layout) { return std::round(1e9 * spacing_ratio(layout)); });
  return found;
}

/// A grid in a rectangle, half of the spacing at its sides.
struct PartGrid {
  int rows = 0;
  int columns = 0;

  [[nodiscard]] Vector2d spacing_m(const AlignedBox2d& box) const {
    return box.sizes().cwiseQuotient(Vector2d(columns, rows));
  }
};

/// The sum over the floor of the squared distance to the can in whose cell it is, of a rectangle with such a spacing.
double squared_distance_m4(const AlignedBox2d& box, const Vector2d& spacing_m) {
  return box.volume() * spacing_m.squaredNorm() / 12;
}

/// Grids of some rectangles and what they are worth.
struct Shares {
  std::vector<PartGrid> grids;
  double squared_distance_m4 = std::numeric_limits<double>::infinity();
  int empty = 0;  ///< rectangles without cans

  /// Of what is equal but for rounding the one that leaves fewer rectangles empty.
  [[nodiscard]] bool is_better_than(const Shares& other) const {
    constexpr double k_equal = 1 - 1e-9;
    if (squared_distance_m4 < k_equal * other.squared_distance_m4) return true;
    return other.squared_distance_m4 >= k_equal * squared_distance_m4 && empty < other.empty;
  }
};

/// The best grid of so many cans in one rectangle.
Shares best_grid(const AlignedBox2d& box, int count) {
  // From a corner of a rectangle its points are as far as from the middle of one of twice its sides.
  if (count == 0) return {{{}}, squared_distance_m4(box, 2 * box.sizes()), 1};
  Shares best;
  for (int rows = 1; rows <= count; ++rows) {
    if (count % rows != 0) continue;
    const PartGrid grid{rows, count / rows};
    const Shares shares{{grid}, squared_distance_m4(box, grid.spacing_m(box))};
    if (shares.is_better_than(best)) best = shares;
  }
  return best;
}

/// A grid for each rectangle, of so many cans together.
std::vector<PartGrid> shared(const std::vector<AlignedBox2d>& boxes, int count) {
  // For each number of cans the best shares of the rectangles so far, then with one rectangle more.
  const auto most = static_cast<std::size_t>(count);
  std::vector<Shares> so_far(most + 1);
  so_far[0].squared_distance_m4 = 0;
  for (const AlignedBox2d& box : boxes) {
    std::vector<Shares> with_box(most + 1);
    for (std::size_t own = 0; own <= most; ++own) {
      const Shares grid = best_grid(box, static_cast<int>(own));
      for (std::size_t others = 0; own + others <= most; ++others) {
        Shares sum = so_far[others];
        sum.grids.push_back(grid.grids[0]);
        sum.squared_distance_m4 += grid.squared_distance_m4;
        sum.empty += grid.empty;
        if (sum.is_better_than(with_box[own + others])) with_box[own + others] = std::move(sum);
      }
    }
    so_far = std::move(with_box);
  }
  return so_far[most].grids;
}

/// As many rows and columns as keep the spacing.
PartGrid spaced_grid(const AlignedBox2d& box, double widest_m) {
  const Eigen::Array2d counts = (box.sizes().array() / widest_m - k_touch_m).ceil().max(1.0).min(k_most_places + 1);
  return {static_cast<int>(counts.y()), static_cast<int>(counts.x())};
}

/// The grids of all of a plan's rectangles.
Layout parted(const Polygon& plan_m, const std::vector<AlignedBox2d>& boxes, const std::vector<PartGrid>& grids) {
  Layout whole = in_own_directions(plan_m, [&](const Polygon&) {
    Layout layout;
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      const AlignedBox2d& box = boxes[i];
      const auto [rows, columns] = grids[i];
      if (rows * columns == 0) continue;
      layout.parts.push_back({box.center(), rows, columns, grids[i].spacing_m(box)});
      const Stations x = even_stations(box.min().x(), box.max().x(), columns);
      const Stations y = even_stations(box.min().y(), box.max().y(), rows);
      for (int row = 0; row < rows; ++row) {
        for (int column = 0; column < columns; ++column) layout.positions_m.emplace_back(x.at(column), y.at(row));
      }
    }
    return layout;
  });
  whole.wall_offset_m = wall_offset_m(plan_m, whole.along, whole.positions_m);
  return whole;
}

double side_ratio(const Polygon& plan_m) {
  const Vector2d sizes_m = bounds_of(frame_of(plan_m).in(plan_m)).sizes();
  return sizes_m.maxCoeff() / sizes_m.minCoeff();
}

/// The layouts of one count that are worth comparing.
std::vector<Layout> layouts_of_count(const Polygon& plan_m, int count, double wall_offset_m) {
  std::vector<Layout> layouts;
  const auto add = [&](const Layout& layout) {
    if (std::ssize(layout.positions_m) == count) layouts.push_back(layout);
  };
  const auto add_nearly_square = [&](const Layout& layout) {
    if (is_nearly_square(layout)) add(layout);
  };
  if (const auto in_parts = parted_layout(plan_m, count)) add(*in_parts);
  const std::vector<Layout> even = even_layouts(plan_m, count);
  if (!even.empty()) {
    add(even[0]);
    if (even.size() > 1) add_nearly_square(even[1]);
    if (side_ratio(plan_m) >= k_long_room) {
      const auto is_row = [](const Layout& layout) { return layout.rows == 1 || layout.columns == 1; };
      if (const auto row = std::ranges::find_if(even, is_row); row != even.end()) add(*row);
    }
    add(offset_layout(plan_m, even[0].rows, even[0].columns, wall_offset_m));
  }
  const auto staggered = grids_that_keep(plan_m, count, [&](int rows, int columns) {
    return rows > 1 && columns > 1 ? staggered_layout(plan_m, rows, columns) : Layout{};
  });
  if (!staggered.empty()) add_nearly_square(staggered[0]);
  std::vector<Layout> rings;
  for (int rows = 3; rows + 3 <= count / 2 + 2; ++rows) {
    rings.push_back(perimeter_layout(plan_m, rows, count / 2 + 2 - rows, wall_offset_m));
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
  return in_own_directions(plan_m, [&](const Polygon& plan) {
    return even_grid(plan, grid_name(rows, columns) + ", even", rows, columns, 0);
  });
}

Layout offset_layout(const Polygon& plan_m, int rows, int columns, double wall_offset_m) {
  return in_own_directions(plan_m, [&](const Polygon& plan) {
    return offset_grid(plan, grid_name(rows, columns) + ", offset", rows, columns, wall_offset_m,
                       [](int, int) { return true; });
  });
}

Layout perimeter_layout(const Polygon& plan_m, int rows, int columns, double wall_offset_m) {
  return in_own_directions(plan_m, [&](const Polygon& plan) {
    return offset_grid(
        plan, fmt::format("round the walls, {} x {}", columns, rows), rows, columns, wall_offset_m,
        [&](int row, int column) { return row == 0 || row == rows - 1 || column == 0 || column == columns - 1; });
  });
}

Layout staggered_layout(const Polygon& plan_m, int rows, int columns) {
  return in_own_directions(plan_m, [&](const Polygon& plan) {
    return even_grid(plan, fmt::format("{} rows of {} and {}", rows, columns, columns - 1), rows, columns, 1);
  });
}

Layout five_layout(const Polygon& plan_m) {
  return in_own_directions(plan_m, [](const Polygon& plan) {
    Layout layout = even_grid(plan, "five on a die", 2, 2, 0);
    Kept kept(plan, layout.wall_offset_m.minCoeff() / 2);
    kept.add(bounds_of(plan).center());
    const std::vector<Vector2d> middle = std::move(kept).take();
    const auto second_row = std::ranges::find_if(
        layout.positions_m, [&](const Vector2d& place) { return place.y() > bounds_of(plan).center().y(); });
    layout.positions_m.insert(second_row, middle.begin(), middle.end());
    return layout;
  });
}

std::optional<Layout> parted_layout(const Polygon& plan_m, int count) {
  const std::vector<AlignedBox2d> boxes = rectangles_of(plan_m);
  if (boxes.size() == 1) return std::nullopt;
  Layout layout = parted(plan_m, boxes, shared(boxes, count));
  layout.name = fmt::format("{} in {} parts", count, layout.parts.size());
  return layout;
}

std::optional<Layout> spaced_layout(const Polygon& plan_m, double widest_m, const std::string& rule) {
  const std::vector<AlignedBox2d> boxes = rectangles_of(plan_m);
  std::vector<PartGrid> grids;
  double places = 0;
  for (const AlignedBox2d& box : boxes) {
    const bool is_lit_from_beside = boxes.size() > 1 && box.sizes().minCoeff() < widest_m / 2;
    grids.push_back(is_lit_from_beside ? PartGrid{} : spaced_grid(box, widest_m));
    places += static_cast<double>(grids.back().rows) * grids.back().columns;
  }
  if (places == 0 || places > k_most_places) return std::nullopt;
  if (boxes.size() > 1) {
    Layout layout = parted(plan_m, boxes, grids);
    layout.name = fmt::format("{}, {} parts", rule, layout.parts.size());
    return layout;
  }
  const auto [rows, columns] = grids.front();
  Layout layout = even_layout(plan_m, rows, columns);
  if (layout.positions_m.empty()) return std::nullopt;
  layout.name = grid_name(rows, columns) + ", " + rule;
  return layout;
}

std::optional<Layout> spaced_offset_layout(const Polygon& plan_m, double widest_m, double wall_offset_m) {
  const AlignedBox2d box = bounds_of(frame_of(plan_m).in(plan_m));
  const Vector2d between_m = box.sizes() - Vector2d::Constant(2 * wall_offset_m);
  if (between_m.minCoeff() < k_touch_m) return std::nullopt;
  const auto [rows, columns] = spaced_grid(AlignedBox2d(Vector2d::Zero(), between_m), widest_m);
  if ((rows + 1.0) * (columns + 1.0) > k_most_places) return std::nullopt;
  Layout layout = offset_layout(plan_m, rows + 1, columns + 1, wall_offset_m);
  if (layout.positions_m.empty()) return std::nullopt;
  layout.name = grid_name(layout.rows, layout.columns) + ", as asked";
  return layout;
}

std::optional<Layout> half_height_layout(const Polygon& plan_m, double ceiling_m) {
  return spaced_layout(plan_m, ceiling_m / 2, "half height");
}

bool has_spacing(const Layout& layout, int axis) {
  return (axis == 0 ? layout.columns : layout.rows) > 1 && layout.spacing_m[axis] > 0;
}

bool is_nearly_square(const Layout& layout) {
  constexpr double k_rounding = 1e-9;
  return spacing_ratio(layout) < 1.5 - k_rounding;
}

double spacing_ratio(const Layout& layout) { return layout.spacing_m.maxCoeff() / layout.spacing_m.minCoeff(); }

Vector2d wall_offset_m(const Polygon& plan_m, const Vector2d& along, const std::vector<Vector2d>& positions_m) {
  const PlanFrame frame{along};
  const AlignedBox2d room = bounds_of(frame.in(plan_m));
  const AlignedBox2d cans = bounds_of(frame.in(positions_m));
  if (cans.isEmpty()) return Vector2d::Zero();
  return (cans.min() - room.min()).cwiseMax(room.max() - cans.max());
}

std::vector<Layout> even_layouts(const Polygon& plan_m, int count) {
  return grids_that_keep(plan_m, count, [&](int rows, int columns) { return even_layout(plan_m, rows, columns); });
}

bool has_same_places(const Layout& a, const Layout& b) {
  return std::ranges::equal(a.positions_m, b.positions_m,
                            [](const Vector2d& p, const Vector2d& q) { return (p - q).norm() < k_touch_m; });
}

void LayoutChoice::add(const Layout& layout) {
  const bool is_known =
      std::ranges::any_of(layouts, [&](const Layout& other) { return has_same_places(layout, other); });
  if (!is_known) layouts.push_back(layout);
}

LayoutChoice layouts_to_compare(const Polygon& plan_m, double ceiling_m, std::span<const int> counts,
                                const SpacingWish& wish) {
  LayoutChoice choice;
  for (const int count : counts) {
    const std::vector<Layout> layouts =
        layouts_of_count(plan_m, count, wish.wall_offset_m.value_or(k_usual_wall_offset_m));
    for (const Layout& layout : layouts) choice.add(layout);
    if (layouts.empty()) choice.without_layout.push_back(count);
  }
  const auto add_if_few = [&](const std::optional<Layout>& layout) {
    const bool is_few = layout && layout->positions_m.size() <= k_most_counted;
    if (is_few) choice.add(*layout);
    return is_few;
  };
  add_if_few(half_height_layout(plan_m, ceiling_m));
  if (wish.widest_m) {
    choice.is_wish_too_close =
        !add_if_few(wish.wall_offset_m ? spaced_offset_layout(plan_m, *wish.widest_m, *wish.wall_offset_m)
                                       : spaced_layout(plan_m, *wish.widest_m, "as asked"));
  }
  return choice;
}

}  // namespace evenlit
