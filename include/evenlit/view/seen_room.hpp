#pragma once

#include <span>
#include <vector>

#include "evenlit/job/job.hpp"
#include "evenlit/view/camera.hpp"
#include "evenlit/view/display.hpp"
#include "evenlit/view/luminance_picture.hpp"
#include "evenlit/view/room_view.hpp"

namespace evenlit {

/// The room with its cans at some levels, as an eye at the camera sees it: openings' veil included, the light in its
/// colours.
struct SeenRoom {
  LuminancePicture picture;
  Eigen::Vector3d light_rgb = Eigen::Vector3d::Ones();  ///< colour of its light on average over the picture: linear,
                                                        ///< of luminance 1
};

/// @param can_levels one a can, fractions of full output
SeenRoom seen_room(const Job& job, const RoomView& view, const Camera& camera, std::span<const double> can_levels);

/// One exposure for pictures that are looked at together: the eye is used to the mean of their light's colours, each
/// counted by its picture's luminance.
Exposure common_exposure(std::span<const SeenRoom> rooms);

}  // namespace evenlit
