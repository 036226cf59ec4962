#pragma once

#include <vector>

#include "evenlit/placing/ceiling_map.hpp"

namespace evenlit {

/// Nothing is moved farther to clear framing: 12 in. With joists 24 in on centre, the widest usual spacing (common
/// practice, no source), a can in the worst place is no farther than that from the middle of a bay.
inline constexpr double k_farthest_shift_m = 0.3048;

/// Cans that move together.
struct PartMove {
  enum class Part { all, row, column };

  Part part = Part::all;
  int number = 0;        ///< of a row from the south, of a column from the west, the first 1; of all 0
  Eigen::Vector2d by_m;  ///< east, north
};

/// A layout moved to fit.
struct MovedLayout {
  std::vector<Eigen::Vector2d> positions_m;  ///< in the layout's order; the layout's own if no move makes it fit
  std::vector<PartMove> moves;               ///< of what moves, ascending; none if it fits or if no move makes it fit
  bool all_fit = false;                      ///< every can, the others as they lie alone
};

/// Moves a layout until every can fits, and keeps what looks deliberate. The first of these that makes it fit:
///
/// 1. All cans together, straight east, west, north or south: the least such shift.
/// 2. All cans together, aslant: the least shift of those that are whole quarter inches in one of the two directions.
/// 3. Columns east or west, or rows north or south, each by its own least shift: rows and columns stay straight and
/// only
///    their spacing changes. Of the two the one whose longest shift is shorter.
/// 4. Rows east or west, or columns north or south, each by its own least shift, so that only one of both stays
/// straight.
///
/// Rows are cans with the same y, columns cans with the same x. One that is a single can never moves by itself. No
/// shift is longer than `k_farthest_shift_m`. Of shifts that differ by 1/16 in or less the one toward the middle of the
/// plan's bounding rectangle is taken, then the one to the west or south.
///
/// Shifts in one direction are exact to `k_touch_m`, as the map's windows are, but for that 1/16 in: what a row may
/// move is what the windows of its cans have in common. In 2 what is not a whole quarter inch is exact.
///
/// @param map of the ceiling without the layout's cans
/// @param type of the cans, the map's
MovedLayout moved_to_fit(const std::vector<Eigen::Vector2d>& positions_m, const CeilingMap& map, const CanType& type,
                         const Polygon& plan_m);

}  // namespace evenlit
