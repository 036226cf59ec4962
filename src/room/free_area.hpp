#pragma once

#include <vector>

#include "evenlit/base/polygon.hpp"
#include "evenlit/room/box.hpp"
#include "evenlit/room/face.hpp"

namespace evenlit {

/// The part of a face of the room that no box stands on: outlines counter-clockwise seen from the room, holes the other
/// way round; none where all is covered. A box covers a face that it touches or that runs through it.
///
/// @param corners counter-clockwise seen from where `normal` (unit, into the room) points
std::vector<Outline> free_area(const Outline& corners, const Eigen::Vector3d& normal, const std::vector<Box>& boxes);

/// The same of a box's face, which counts only as far as it stands free inside the room.
std::vector<Outline> free_area(const BoxFace& face, const std::vector<Box>& boxes, const Polygon& plan_m,
                               double ceiling_m);

}  // namespace evenlit
