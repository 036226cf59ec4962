#pragma once

#include "evenlit/moods/opening_light.hpp"
#include "evenlit/view/shown_face.hpp"

namespace evenlit {

/// The opening that a picture shows.
Opening shown_opening(const Luminaire& luminaire, const LuminaireLook& look);

/// What a luminaire at full level sends toward a point; to its own place nothing.
OpeningLight full_light_toward(const Scene& scene, Luminaire luminaire, const Eigen::Vector3d& point_m);

/// Luminance at full level of the opening that a picture shows, toward a point, cd/m2: intensity over the area that is
/// seen. Nearly edge on that of a flat opening vanishes, and what is left of the light would be spread over nothing: it
/// counts as no smaller than a twentieth of what it is from straight ahead.
double opening_cd_m2(const Scene& scene, const LuminaireLook& look, int luminaire, const Eigen::Vector3d& point_m);

/// What a face makes of light.
struct Paint {
  double reflectance = 0;                          ///< diffuse
  Eigen::Vector3d tint = Eigen::Vector3d::Ones();  ///< linear red, green and blue of luminance 1
};

/// Of a surface its own; of a trim that of white enamel, 0.8, and of an opening that of a lens or a reflector, 0.3
/// (common practice, no source), where they lie on a surface that tells how much light there is.
Paint paint_of(const Scene& scene, const ShownFace& face);

/// How many groups there are.
int groups_of(const std::vector<LuminaireLook>& looks);

}  // namespace evenlit
