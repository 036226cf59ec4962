#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "evenlit/placing/candidates.hpp"
#include "evenlit/placing/layouts.hpp"
#include "evenlit/placing/wanted.hpp"

namespace evenlit {

/// Asked now and then by a long computation, by any of its threads: whether it shall end with what it has.
using IsStopped = std::function<bool()>;

/// A layout that a search has found, in the light of its candidates.
struct FoundLayout {
  Layout layout;
  double shortfall = 0;   ///< the largest of the light that is wanted, see `Want`
  double minimum_lx = 0;  ///< on the work plane
};

/// The best layouts of a count.
struct RegularChoice {
  std::optional<FoundLayout> brightest;  ///< its darkest point is brightest; empty where no layout has the count
  std::optional<FoundLayout> giving;     ///< the same among those that give all light that is wanted
};

struct RegularLayouts {
  std::vector<RegularChoice> best;  ///< one a count
  std::int64_t looked_at = 0;       ///< layouts whose light was summed up
  bool is_whole = true;             ///< false where it was stopped
};

/// Of all layouts in rows and columns the best of each count, of equal ones the first found.
///
/// All are looked at that have evenly spaced columns and rows on places of the raster, at least `k_least_apart_m` apart
/// and no farther from the sides of the plan's bounding rectangle than from each other, columns no more than twice as
/// far apart as rows, nor rows as columns; symmetric ones only where that
/// is wanted. Places outside of the plan are dropped; one in it where no can fits rules a layout out.
///
/// The light of a column of places is summed up once for all layouts that have it, so that one more layout costs as
/// many additions as it has rows, at each point.
///
/// @param counts each 1 ... k_most_counted
RegularLayouts regular_layouts(const Job& job, const Candidates& candidates, const std::vector<int>& counts,
                               const IsStopped& is_stopped = {}, const Progress& progress = {});

/// No two rows or columns are nearer: 2 ft. Common practice, no source: nearer cans look like one.
inline constexpr double k_least_apart_m = 0.6096;

}  // namespace evenlit
