#pragma once

#include <span>
#include <vector>

#include "evenlit/base/polygon.hpp"
#include "evenlit/job/ceiling.hpp"
#include "evenlit/room/box.hpp"
#include "evenlit/room/face.hpp"

namespace evenlit {

/// The part of a face of the room that no box covers: outlines counter-clockwise seen from the room, each followed by
/// its holes, which run the other way round; none where all is covered.
///
/// One rule for floor, walls and slopes: a box covers what its cross-section covers with the face's plane, taken a
/// touch inside the room, so that what stands on the face counts as well as what runs through it.
///
/// @param outlines of the face, in the same manner
/// @param normal   unit, into the room
std::vector<Outline> free_area(const std::vector<Outline>& outlines, const Eigen::Vector3d& normal,
                               std::span<const Box> boxes);

/// What one box covers of a face.
struct CoveredPart {
  int box = 0;  ///< index
  Outline outline_m;
};

/// What each box covers, by the same rule, of a face that is one simple polygon. What several cover counts for each.
std::vector<CoveredPart> covered_parts(const Outline& outline, const Eigen::Vector3d& normal,
                                       std::span<const Box> boxes);

/// The part of a box's face that no other covers, which counts only as far as it stands free inside the room: between walls, floor and
/// ceiling. Where faces of two boxes lie in one plane and face the same way, the earlier box's counts.
///
/// @param boxes   all of the room, the face's own among them
/// @param earlier those before the face's own
std::vector<Outline> free_area(const BoxFace& face, std::span<const Box> boxes, std::span<const Box> earlier,
                               const Polygon& plan_m, const Ceiling& ceiling);

}  // namespace evenlit
