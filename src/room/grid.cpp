#include "evenlit/room/grid.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/job/ceiling.hpp"

namespace evenlit {
namespace {

/// Cells of at most `spacing` that divide `length` evenly; a length that is a whole number of spacings up to rounding
/// gets that number.
double cells_across(double length, double spacing) { return std::max(1.0, std::ceil(length / spacing - 1e-9)); }

bool is_wanted(const Polygon& plan, const Eigen::Vector2d& point, double margin_m) {
  constexpr double k_rounding_m = 1e-9;
  return is_inside(plan, point) && distance_to_outline(plan, point) >= margin_m - k_rounding_m;
}

bool is_outside_all(const std::vector<Box>& boxes, const Eigen::Vector3d& point) {
  constexpr double k_rounding_m = 1e-6;  // a point on a countertop is not in it
  return std::ranges::none_of(boxes, [&](const Box& box) { return is_inside(box, point, k_rounding_m); });
}

bool is_below(const Ceiling& ceiling, const Eigen::Vector2d& point, double height_m) {
  constexpr double k_rounding_m = 1e-6;
  return height_m < ceiling.height_m(point) - k_rounding_m;
}

}  // namespace

double recommended_spacing_m(double longer_side_m) { return 0.2 * std::pow(5.0, std::log10(longer_side_m)); }

Result<Grid> work_plane_grid(const Shape& room, const WorkPlane& work_plane, const Place& place,
                             const std::vector<Box>& boxes) {
  const Eigen::AlignedBox2d bounds = bounds_of(room.corners_m);
  const Eigen::Vector2d low = bounds.min();
  const Eigen::Vector2d size = bounds.sizes();
  const double spacing = work_plane.spacing_m.value_or(recommended_spacing_m(size.maxCoeff()));
  const double columns = cells_across(size.x(), spacing);
  const double rows = cells_across(size.y(), spacing);
  if (columns * rows > k_most_grid_points) {
    return failure(place,
                   fmt::format("a grid of {:.0f} x {:.0f} points is more than {}", columns, rows, k_most_grid_points),
                   "choose a wider spacing of the work plane's grid");
  }

  Grid grid{.height_m = work_plane.height_m,
            .first_m = low + Eigen::Vector2d(size.x() / columns, size.y() / rows) / 2,
            .spacing_m = {size.x() / columns, size.y() / rows},
            .columns = static_cast<int>(columns),
            .rows = static_cast<int>(rows),
            .point_of_cell = {},
            .points_m = {}};
  const Ceiling ceiling = ceiling_of(room);
  for (int row = 0; row < grid.rows; ++row) {
    for (int column = 0; column < grid.columns; ++column) {
      const Eigen::Vector2d point = grid.first_m + Eigen::Vector2d(column, row).cwiseProduct(grid.spacing_m);
      const bool wanted = is_wanted(room.corners_m, point, work_plane.margin_m) &&
                          is_below(ceiling, point, work_plane.height_m) &&
                          is_outside_all(boxes, {point.x(), point.y(), work_plane.height_m});
      grid.point_of_cell.push_back(wanted ? static_cast<int>(grid.points_m.size()) : -1);
      if (wanted) grid.points_m.push_back(point);
    }
  }
  if (grid.points_m.empty()) {
    return failure(place,
                   room.slopes.empty() ? "no grid point is left inside the work plane's margin"
                                       : "no grid point is left inside the work plane's margin and below the ceiling",
                   "choose a smaller margin or a closer spacing");
  }
  return grid;
}

}  // namespace evenlit
