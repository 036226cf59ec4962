#pragma once

#include <optional>

#include "evenlit/job/ceiling.hpp"

namespace evenlit {

/// Where a can's opening is and where it is aimed.
struct Mounting {
  Eigen::Vector3d opening_m;  ///< centre of the opening, in the room
  double tilt_deg = 0;        ///< of the aim from straight down
  double toward_deg = 0;      ///< plan direction of the tilt: 0 along +x (east), 90 along +y (north)
};

/// A can that is aimed square to the ceiling has the tilt and direction of the normal of the plane above it.
///
/// Empty where `plan_position` is.
std::optional<Mounting> mounting(const Shape& room, const Ceiling& ceiling, const Can& can);

/// The first obstruction inside of which a point is, or behind which: one that reaches the ceiling leaves no space
/// above it. What is on a side of an obstruction, under it or on top of it is outside.
const Obstruction* obstruction_around(const std::vector<Obstruction>& obstructions, const Shape& room,
                                      const Ceiling& ceiling, const Eigen::Vector3d& point_m);

}  // namespace evenlit
