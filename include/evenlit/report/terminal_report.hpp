#pragma once

#include <string>

#include "evenlit/base/result.hpp"
#include "evenlit/field/readings_light.hpp"
#include "evenlit/field/work_plane_light.hpp"
#include "evenlit/job/job.hpp"

namespace evenlit {

/// The results as plain text for a terminal or a printer: lines of at most 80 columns (a single longer word excepted),
/// illuminance in both units with the trade's first, three significant digits at most and none finer than the error.
///
/// @param light of the job; the grid has at least one point
/// @param readings what of them there is has tables of its own
std::string terminal_report(const Job& job, const WorkPlaneLight& light, const Problems& warnings,
                            const ReadingsLight& readings = {});

}  // namespace evenlit
