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

/// Whether a point of a surface's plane is on what neither a box nor a wall area covers of the surface, or within 0.02
/// mm of the outline of that.
bool is_on_free_part(const Surface& surface, const Eigen::Vector3d& point);

/// What an eye sees first along a direction (unit): the nearest free part of a surface that faces it. In a closed room
/// there always is one; an eye that touches a surface sees it.
std::optional<SurfacePoint> first_hit(const Scene& scene, const Eigen::Vector3d& eye_m,
                                      const Eigen::Vector3d& direction);

}  // namespace evenlit
