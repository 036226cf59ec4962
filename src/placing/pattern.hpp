#pragma once

#include <vector>

#include "evenlit/job/job.hpp"

namespace evenlit {

/// What is laid out: a can without a place, and the job's that are like it.
struct Pattern {
  Can can;
  std::vector<int> cans;    ///< indices into the job's
  std::vector<int> others;  ///< the rest of them
};

/// Of the cans that are flush with the ceiling the largest group that differ in nothing but place; if all hang or stand
/// lower, a can of the first type, aimed straight down.
Pattern pattern_of(const Job& job);

/// The can at a place of the plan: taped from the first wall and the one most nearly square to it.
Can placed(Can can, const Shape& room, const Eigen::Vector2d& place_m);

}  // namespace evenlit
