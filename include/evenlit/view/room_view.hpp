#pragma once

#include <Eigen/Core>
#include <span>
#include <vector>

#include "evenlit/base/progress.hpp"
#include "evenlit/view/camera.hpp"
#include "evenlit/view/lit_room.hpp"
#include "evenlit/view/luminance_picture.hpp"
#include "evenlit/view/shown_face.hpp"

namespace evenlit {

/// A luminaire that sends light into the eye, in the picture or beside it.
struct VisibleSource {
  Eigen::Vector3d direction;  ///< unit, from the eye to the opening's centre
  double lx = 0;          ///< square to that direction at the eye, of what the eye sees of the opening, at full level
  double radius_deg = 0;  ///< half of the angle that the opening subtends where it faces the eye
  int group = 0;
};

/// A room from one place, group of luminaires by group: what it looks like at any levels and colours of light is a sum.
struct RoomView {
  PictureSize size;
  std::vector<LuminancePicture> groups;  ///< each at full level, its light white, the others off
  std::vector<VisibleSource> sources;    ///< in the scene's order
};

/// What an eye at the camera sees of a room, its light as `LitRoom` has it for every part of every pixel. Surfaces are
/// diffuse. An opening is as bright as its intensity toward the eye over its area seen from there; what is flush with a
/// surface reflects the light on the surface, too, a white trim 0.8 of it, an opening 0.3. Whatever colours surfaces
/// have, the luminance of every pixel is that of grey ones.
RoomView room_view(const LitRoom& room, const Camera& camera, const Progress& progress = {});

/// The same of a room that only one picture is wanted of.
///
/// @param looks one a luminaire; groups are counted from 0 without a gap
RoomView room_view(const Scene& scene, const std::vector<LuminaireLook>& looks, const Camera& camera,
                   const Progress& progress = {});

/// A room with its groups at levels and in colours. The luminance of each pixel is the sum of levels times luminances,
/// whatever the colours.
///
/// @param levels fractions of full output, one a group
/// @param tints  of the light of each group: linear red, green and blue of luminance 1
LuminancePicture mixed(const RoomView& view, std::span<const double> levels, std::span<const Eigen::Vector3d> tints);

}  // namespace evenlit
