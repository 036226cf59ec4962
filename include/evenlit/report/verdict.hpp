#pragma once

#include <string>

#include "evenlit/field/work_plane_light.hpp"
#include "evenlit/job/job.hpp"

namespace evenlit {

/// Whether the average meets the target, and where it is darkest, in two plain sentences. An average that differs from
/// the target by less than its own numerical error is called neither met nor missed.
///
/// @param light of the job; the grid has at least one point
std::string verdict(const Job& job, const WorkPlaneLight& light);

}  // namespace evenlit
