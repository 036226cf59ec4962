#pragma once

#include <vector>

#include "evenlit/job/job.hpp"

namespace evenlit {

/// What is laid out: a can without a place, and the job's that are like it.
struct CanPattern {
  Can can;
  std::vector<int> cans;    ///< indices into the job's
  std::vector<int> others;  ///< the rest of them
};

/// Of the cans that are flush with the ceiling the largest group that differ in nothing but place and circuit; what is
/// laid out is on none. If all of the job's
/// hang or stand lower: a can of its first type, aimed straight down, and no can of the job.
CanPattern pattern_of(const Job& job);

/// The can at a place of the plan: taped from the first wall and the one most nearly square to it.
Can placed(Can can, const Shape& room, const Eigen::Vector2d& place_m);

const CanType& type_named(const Job& job, const std::string& name);

}  // namespace evenlit
