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

/// `1' 2-3/16" west, 10" north`: the same as short as a table wants it, to the nearest 1/16 in or millimetre.
std::string mark_text(const Shape& room, const Eigen::Vector2d& point_m, Units units);

/// One of the eight points of the compass, as the plan has them.
struct CompassPoint {
  const char* name;      ///< `southwest`
  const char* initials;  ///< `SW`
};

/// The nearest to a direction, which is not zero.
CompassPoint compass_point(const Eigen::Vector2d& direction);

}  // namespace evenlit
