#pragma once

#include "evenlit/room/scene.hpp"

namespace evenlit {

/// The zonal-cavity estimate of the average illuminance on the work plane, which people check by hand.
struct LumenMethod {
  double room_cavity_ratio = 0;
  double ceiling_cavity_ratio = 0;
  double floor_cavity_ratio = 0;
  double coefficient_of_utilization = 0;  ///< of all luminaires together
  double average_lx = 0;
};

/// The estimate at the luminaires' levels. Every luminaire counts as aimed straight down and as spread evenly over the
/// ceiling: that is what the method assumes. A ceiling with slopes counts as a level one at its mean height, the room's
/// volume over its floor area; walls count with the mean reflectance of what boxes leave free of them.
///
/// @param work_plane_m above the floor, below the ceiling
LumenMethod lumen_method(const Scene& scene, double work_plane_m);

}  // namespace evenlit
