#pragma once

#include "evenlit/moods/opening_light.hpp"
#include "evenlit/view/shown_face.hpp"

namespace evenlit {

/// The opening that a picture shows.
Opening shown_opening(const Luminaire& luminaire, const LuminaireLook& look);

/// What a luminaire at full level sends toward a point; to its own place nothing.
inline OpeningLight full_light_toward(const Scene& scene, Luminaire luminaire, const Eigen::Vector3d& point_m) {
  if (point_m == luminaire.position_m) return {};
  luminaire.level = 1;
  return light_toward(scene, luminaire, point_m);
}

}  // namespace evenlit
