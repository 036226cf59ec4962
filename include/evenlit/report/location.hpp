#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "evenlit/job/job.hpp"

namespace evenlit {

/// Where a point of the plan is, as one would find it with a tape: distances square to the nearest wall that the tape
/// reaches and to the next one that stands at a clear angle (more than 30 degrees) to it.
///
/// @return two measurements; one where no such second wall is in reach
std::vector<Taped> taped_location(const Shape& room, const Eigen::Vector2d& point_m);

/// `1' 2" from the west wall and 10" from the north wall`, to the nearest inch or centimetre.
std::string location_text(const Shape& room, const Eigen::Vector2d& point_m, Units units);

}  // namespace evenlit
