#pragma once

#include <Eigen/Core>
#include <optional>

#include "evenlit/room/scene.hpp"

namespace evenlit {

/// A point on the front of one of the scene's surfaces.
struct SurfacePoint {
  int surface = 0;
  Eigen::Vector3d position_m;
};

/// What an eye sees first along a direction (unit): the nearest free part of a surface that faces it. In a closed room
/// there always is one; an eye that touches a surface sees it.
std::optional<SurfacePoint> first_hit(const Scene& scene, const Eigen::Vector3d& eye_m,
                                      const Eigen::Vector3d& direction);

}  // namespace evenlit
