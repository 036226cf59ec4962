#include "evenlit/room/face.hpp"

#include <Eigen/Geometry>

namespace evenlit {

FaceFrame frame_of(std::span<const Eigen::Vector3d> corners, const Eigen::Vector3d& normal) {
  Eigen::Vector3d longest = Eigen::Vector3d::Zero();
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Eigen::Vector3d edge = corners[(i + 1) % corners.size()] - corners[i];
    if (edge.norm() > longest.norm() * (1 + 1e-9)) longest = edge;
  }
  const Eigen::Vector3d u = longest.normalized();
  return {corners.front(), u, normal.cross(u)};
}

}  // namespace evenlit
