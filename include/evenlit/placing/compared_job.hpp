#pragma once

#include <string>
#include <vector>

#include "evenlit/placing/comparison.hpp"
#include "evenlit/room/box.hpp"
#include "evenlit/room/grid.hpp"

namespace evenlit {

/// A whole job, beside others that could be done instead.
struct ComparedJob {
  Job job;
  std::vector<Box> boxes;  ///< of its scene
  Grid grid;               ///< of its work plane
  ComparedLayout row;      ///< all of its cans as they are; of several types it has their names with + between
};

/// @param name       that the job's row gets
/// @param job        one that `read_job` would accept
/// @param photometry one a can type, in the job's order
/// @param place      of the job, for messages
/// @errors those of `work_plane_grid` and `compared`
Result<ComparedJob> compared_job(const std::string& name, const Job& job,
                                 const std::vector<PhotometricFile>& photometry, const Place& place,
                                 const Progress& progress = {});

/// Jobs as the rows of one comparison.
Comparison comparison_of(const std::vector<ComparedJob>& jobs);

}  // namespace evenlit
