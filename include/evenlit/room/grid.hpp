#pragma once

#include <Eigen/Core>
#include <functional>
#include <vector>

#include "evenlit/base/polygon.hpp"
#include "evenlit/base/result.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/room/box.hpp"

namespace evenlit {

/// The equal cells of an upright rectangle; some have a point, at their centre. Row 0 is the lowest, or southernmost.
struct Lattice {
  Eigen::Vector2d first_m;    ///< centre of the cell in row 0, column 0
  Eigen::Vector2d spacing_m;  ///< between neighbours in a row, between rows
  int columns = 0;
  int rows = 0;
  std::vector<int> point_of_cell;         ///< row-major, index into `points_m` or -1
  std::vector<Eigen::Vector2d> points_m;  ///< row by row

  friend bool operator==(const Lattice&, const Lattice&) = default;
};

/// Cells that divide the sides of a rectangle evenly, with points where they are wanted.
Lattice lattice_over(const Eigen::AlignedBox2d& rectangle_m, int columns, int rows,
                     const std::function<bool(const Eigen::Vector2d&)>& is_wanted);

/// The points of the work plane: centres of the equal cells into which the plan's bounding rectangle is divided, as
/// far as they lie inside the plan, below the ceiling, in no box, and no nearer to a wall than the margin.
struct Grid : Lattice {
  double height_m = 0;

  friend bool operator==(const Grid&, const Grid&) = default;
};

/// The largest cell of a calculation grid: 0.2 m x 5^(log10 d), with d the longer side of the plan in m.
///
/// @source EN 12464-1:2011, 4.4 "illuminance grid" (equation from memory)
double recommended_spacing_m(double longer_side_m);

inline constexpr int k_most_grid_points = 50'000;

/// @errors no point is inside the margin, below the ceiling and outside of all boxes; more than `k_most_grid_points`
/// cells
Result<Grid> work_plane_grid(const Shape& room, const WorkPlane& work_plane, const Place& place,
                             const std::vector<Box>& boxes = {});

}  // namespace evenlit
