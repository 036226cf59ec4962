#pragma once

#include <Eigen/Core>
#include <span>
#include <vector>

#include "evenlit/base/polygon.hpp"

namespace evenlit {

/// Corners in the room, in order.
using Outline = std::vector<Eigen::Vector3d>;

/// Coordinates on a plane face, the first axis along its longest edge, so that what is laid out on the face turns with
/// it.
struct FaceFrame {
  Eigen::Vector3d origin;
  Eigen::Vector3d u;
  Eigen::Vector3d v;

  [[nodiscard]] Eigen::Vector2d flat(const Eigen::Vector3d& point) const {
    return {u.dot(point - origin), v.dot(point - origin)};
  }
  [[nodiscard]] Eigen::Vector3d lifted(const Eigen::Vector2d& point) const {
    return origin + point.x() * u + point.y() * v;
  }
};

/// @param corners counter-clockwise seen from where `normal` (unit) points
FaceFrame frame_of(std::span<const Eigen::Vector3d> corners, const Eigen::Vector3d& normal);

}  // namespace evenlit
