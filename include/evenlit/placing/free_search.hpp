#pragma once

#include <optional>
#include <vector>

#include "evenlit/placing/regular_search.hpp"

namespace evenlit {

/// Cans wherever they fit, and how much better any others could be.
struct FreeLayout {
  std::optional<FoundLayout> found;  ///< empty where so many cans have no room
  double bound_lx = 0;               ///< no choice of so many places of the raster makes the darkest point brighter
  bool is_whole = true;              ///< false where it was stopped
};

/// So many cans in places of the raster, in no rows, that the darkest point of the work plane is as bright as can be
/// found; where symmetry is wanted, in groups that mirror each other in both middle lines of the room.
///
/// Local search: from each start, one group of cans after the other goes where it does most, until none gains; first
/// for a power mean of the points' light that leans toward the darkest (exponent -8, then -32), then for the darkest
/// alone. Starts are `start` and greedy choices from places all over the room. No two cans are nearer than
/// `Candidates::least_apart_m`.
///
/// The bound is a weighted mean: for any weights of the points, which add up to 1, the darkest point of a layout is no
/// brighter than the layout's weighted mean, and no layout's mean is above that of the places that do most for it. The
/// weights are sought by the multiplicative-weights method with a prediction of the next step. Of up to eight cans
/// it is tightened by branch and bound over zones of the plan, until it is proved or a fixed number of steps is done.
///
/// @param count 1 ... k_most_counted
/// @param start another layout of as many cans on places of the raster
/// @source Y. Freund, R. E. Schapire, "Adaptive game playing using multiplicative weights", Games and Economic Behavior
///         29 (1999); A. Rakhlin, K. Sridharan, "Optimization, learning, and games with predictable sequences" (2013)
///         (both from memory)
FreeLayout free_layout(const Job& job, const Candidates& candidates, int count, const std::optional<Layout>& start,
                       const IsStopped& is_stopped = {});

}  // namespace evenlit
