#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "evenlit/view/light_texture.hpp"
#include "evenlit/view/shown_face.hpp"

namespace evenlit {

/// A plane thing to be seen, as triangles that show one side.
struct ModelFace {
  ShownFace::Kind kind = ShownFace::Kind::surface;
  int surface = -1;    ///< of the scene, whose light it takes; -1 of an opening that lies on none
  int luminaire = -1;  ///< of a trim or an opening
  double reflectance = 0;
  Eigen::Vector3d tint = Eigen::Vector3d::Ones();  ///< linear red, green, blue of luminance 1: what it makes of white
  Eigen::Vector3d normal;                          ///< unit, toward the side that is shown
  std::vector<Eigen::Vector3d> corners_m;
  std::vector<std::array<int, 3>> triangles;  ///< counter-clockwise seen from that side; none overlap
};

/// A luminous opening at full level.
struct ModelOpening {
  int luminaire = 0;
  int group = 0;
  int face = 0;               ///< that shows it
  std::vector<double> cd_m2;  ///< luminance by the angle from its aim, every `k_opening_step_deg` up to 180 degrees
};

/// Steps of an opening's luminance; straight lines between them leave a beam of 20 degrees by 1 % of its peak.
inline constexpr int k_opening_step_deg = 2;

/// The room to be walked through: what is to be seen, and how much light is on it.
struct RoomModel {
  LightTexture light;
  std::vector<ModelFace> faces;  ///< as `all_faces`, those that have an area
  std::vector<ModelOpening> openings;
};

/// Faces have a corner wherever a corner of another one touches their sides, so that no gap shows between them. Trims
/// lie 1 mm over their surface and openings 2 mm, flat: one that is tilted is as narrow as it looks from straight ahead
/// of the surface.
///
/// An opening's luminance is that of `room_view`, as the mean over 24 directions around its aim.
RoomModel room_model(const LitRoom& room, const Progress& progress = {});

}  // namespace evenlit
