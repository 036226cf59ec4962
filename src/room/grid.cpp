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

Lattice lattice_over(const Eigen::AlignedBox2d& rectangle_m, int columns, int rows,
                     const std::function<bool(const Eigen::Vector2d&)>& is_wanted) {
  Lattice lattice;
  lattice.columns = columns;
  lattice.rows = rows;
  lattice.spacing_m = rectangle_m.sizes().array() / Eigen::Array2d(columns, rows);
  lattice.first_m = rectangle_m.min() + lattice.spacing_m / 2;
  for (int row = 0; row < lattice.rows; ++row) {
    for (int column = 0; column < lattice.columns; ++column) {
      const Eigen::Vector2d point = lattice.first_m + Eigen::Vector2d(column, row).cwiseProduct(lattice.spacing_m);
      const bool wanted = is_wanted(point);
      lattice.point_of_cell.push_back(wanted ? static_cast<int>(lattice.points_m.size()) : -1);
      if (wanted) lattice.points_m.push_back(point);
    }
  }
  return lattice;
}

Result<Grid> work_plane_grid(const Shape& room, const WorkPlane& work_plane, const Place& place,
                             const std::vector<Box>& boxes) {
  const Eigen::AlignedBox2d bounds = bounds_of(room.corners_m);
  const Eigen::Vector2d size = bounds.sizes();
  const double spacing = work_plane.spacing_m.value_or(recommended_spacing_m(size.maxCoeff()));
  const double columns = cells_across(size.x(), spacing);
  const double rows = cells_across(size.y(), spacing);
  if (columns * rows > k_most_grid_points) {
    return failure(place,
                   fmt::format("a grid of {:.0f} x {:.0f} points is more than {}", columns, rows, k_most_grid_points),
                   "choose a wider spacing of the work plane's grid");
  }

  const Ceiling ceiling = ceiling_of(room);
  const auto is_point = [&](const Eigen::Vector2d& point) {
    return is_wanted(room.corners_m, point, work_plane.margin_m) && is_below(ceiling, point, work_plane.height_m) &&
           is_outside_all(boxes, {point.x(), point.y(), work_plane.height_m});
  };
  Grid grid{lattice_over(bounds, static_cast<int>(columns), static_cast<int>(rows), is_point), work_plane.height_m};
  if (grid.points_m.empty()) {
    return failure(place,
                   room.slopes.empty() ? "no grid point is left inside the work plane's margin"
                                       : "no grid point is left inside the work plane's margin and below the ceiling",
                   "choose a smaller margin or a closer spacing");
  }
  return grid;
}

}  // namespace evenlit
