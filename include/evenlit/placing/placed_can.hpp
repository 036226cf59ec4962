#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/placing/ceiling_map.hpp"

namespace evenlit {

// Where one can of a job may go when someone points at a place for it: first in line with what is there already.

/// How far a can is drawn to a line that it could be on: 4 in. Common practice, no source.
inline constexpr double k_snap_m = 0.1016;

/// A line of the plan, in its own directions (`PlanFrame`), that a can is on.
struct CanLine {
  enum class Kind {
    row,
    midway,
    middle
  };  ///< with other cans, midway between two of a row, the middle of the room or
      ///< of one of the rectangles that it is made of

  Kind kind = Kind::row;
  int axis = 0;           ///< 0: the can has its x from it, so that the line runs along y; 1: its y
  std::vector<int> cans;  ///< indices into the job's; of `midway` the two; of `middle` none
  Line line;
};

/// Where a can may go near a wished place.
struct PlacedCan {
  Eigen::Vector2d wished_m;                ///< the nearest point of the room, where the wish is outside of it
  std::vector<Hit> hits;                   ///< there, the worst first; none: its hole fits, or it has none
  std::string inside;                      ///< the obstruction that it would be in there; empty: in none
  std::optional<Eigen::Vector2d> place_m;  ///< empty where it fits nowhere near
  std::vector<CanLine> lines;              ///< that it is put on, one an axis at most

  [[nodiscard]] bool fits_there() const { return hits.empty() && inside.empty(); }
};

/// Where a can may go near a wished place. The first of these where it fits:
///
/// 1. Where a line along one axis and one along the other cross, no farther than `k_snap_m` off along either.
/// 2. On one such line, beside the wished place.
/// 3. The wished place itself, to the nearest 1/8 in (5 mm) from the walls at the plan's south and west.
/// 4. On one such line, moved along it by no more than `k_snap_m`.
/// 5. The nearest place, no farther off than `k_farthest_shift_m`.
///
/// Rows with other cans come before lines midway between two, these before middle lines; of a kind the nearer comes
/// first. In 4 and 5 `k_play_m` is left to what it would hit, or to the middle of a narrower gap. The can itself is in
/// nobody's way; the others are as each lies alone.
///
/// @param job one that `read_job` would accept
/// @param can index into the job's
/// @param wished_m on the plan, finite
PlacedCan placed_can(const Job& job, int can, const Eigen::Vector2d& wished_m);

}  // namespace evenlit
