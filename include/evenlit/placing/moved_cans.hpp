#pragma once

#include <Eigen/Core>
#include <vector>

#include "evenlit/job/job.hpp"
#include "evenlit/placing/hole_check.hpp"

namespace evenlit {

/// A can that goes elsewhere than it was first planned.
struct MovedCan {
  int can = 0;            ///< index into both jobs' cans
  Eigen::Vector2d was_m;  ///< its centre before, on the plan
  std::vector<Hit> hits;  ///< what it ran into there, the worst first
};

/// The cans that moved by more than a tape shows, 1/32 in.
///
/// @param before, now of one room, with as many cans, in one order
std::vector<MovedCan> moved_cans(const Job& before, const Job& now);

}  // namespace evenlit
