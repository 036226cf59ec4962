#pragma once

#include <array>
#include <vector>

#include "evenlit/placing/ceiling_map.hpp"
#include "evenlit/placing/plan_frame.hpp"

namespace evenlit {

/// Nothing is moved farther to clear framing: 12 in. With joists 24 in on centre, the widest usual spacing (common
/// practice, no source), a can in the worst place is no farther than that from the middle of a bay.
inline constexpr double k_farthest_shift_m = 0.3048;

/// What a shift leaves to what the cans would hit, where there is room for it: 1/4 in. What a hole saw and a tape are
/// off together. Common practice, no source.
inline constexpr double k_play_m = 0.00635;

/// Cans that move together.
struct PartMove {
  enum class Part { all, row, column, can };

  Part part = Part::all;
  int number = 0;  ///< of a row from the south, of a column from the west, of a can in the layout's order, the first
                   ///< 1; of all 0
  Eigen::Vector2d by_m;  ///< east, north
};

/// A layout moved to fit.
struct MovedLayout {
  enum class Symmetry { absent, kept, lost };

  std::vector<Eigen::Vector2d> positions_m;  ///< in the layout's order; the layout's own if no move makes it fit
  std::vector<PartMove> moves;               ///< of what moves, ascending; none if it fits or if no move makes it fit
  bool all_fit = false;                      ///< every can, the others as they lie alone
  bool is_straight = true;                   ///< rows and columns are as straight as they were
  Eigen::Vector2d spacing_factor{1, 1};      ///< on the spacing of columns, of rows; 0 where it becomes uneven
  Symmetry symmetry = Symmetry::absent;      ///< about the lines through `MoveRules::middle_m`
};

/// How a layout may be moved.
struct MoveRules {
  PlanFrame frame;                ///< of its rows and columns
  Eigen::Vector2d middle_m;       ///< its rows and columns are kept symmetric about the frame's lines through this
  std::array<bool, 2> is_held{};  ///< it is meant to be there along rows, along columns: no shift of all that way
  Units units = Units::imperial;  ///< whether shifts are whole eighths of an inch or whole 5 mm
  bool may_move_single_cans = false;
};

/// Moves a layout until every can fits, and keeps what looks deliberate: what shows the least comes first. The first of
/// these that makes it fit:
///
/// 1. All cans together, straight along rows or columns: the least such shift.
/// 2. All cans together, aslant: the least shift of those that are whole quarter inches (10 mm) along rows or columns.
/// 3. All columns farther apart or nearer to each other about the middle, or all rows: their spacing stays even.
/// 4. Columns in mirrored pairs, or rows, each pair by its own least shift; one in the middle stays.
/// 5. Columns along rows, or rows along columns, each by its own least shift: rows and columns stay straight and only
/// their spacing changes.
/// 6. Rows along themselves, or columns, each by its own least shift, so that only one of both stays straight.
/// 7. Where that is allowed, each can that does not fit by itself, to the nearest place.
///
/// In 3 to 6 that of columns and rows is taken whose longest shift is shorter. Rows are cans with the same place across
/// the frame, columns cans with the same place along it. In 5 and 6 one that is a single can does not move; 3 and 4 are
/// for layouts that are symmetric that way. But for 7 no shift is longer than `k_farthest_shift_m`. Of shifts that
/// differ by 1/16 in or less the one toward the middle is taken, then the one to the west or south.
///
/// A shift goes on to the next whole eighth of an inch (5 mm) that leaves `k_play_m` to both sides of the gap that it
/// leads into, or to the middle of a narrower gap, to the nearest half of that step where it fits; in 3 it is the
/// outermost ones' shift, in steps that make all others' whole too. The gaps are exact to `k_touch_m`, as the map's
/// windows are: what a row may move is what the windows of its cans have in common.
///
/// @param map of the ceiling without the layout's cans
/// @param type of the cans, the map's
MovedLayout moved_to_fit(const std::vector<Eigen::Vector2d>& positions_m, const CeilingMap& map, const CanType& type,
                         const MoveRules& rules);

}  // namespace evenlit
