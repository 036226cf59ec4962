#pragma once

#include <Eigen/Core>
#include <span>
#include <vector>

#include "evenlit/view/camera.hpp"
#include "evenlit/view/shown_face.hpp"

namespace evenlit {

/// A straight edge in the picture, from its upper to its lower end.
struct ImageEdge {
  Eigen::Vector2d top_px;
  Eigen::Vector2d bottom_px;

  [[nodiscard]] double x_at(double y_px) const {
    const double t = (y_px - top_px.y()) / (bottom_px.y() - top_px.y());
    return top_px.x() + t * (bottom_px.x() - top_px.x());
  }
};

/// A face as the camera sees it. One over the depth, the distance along the camera's axis, is linear in the picture.
struct FaceImage {
  std::vector<ImageEdge> edges;  ///< none level
  Eigen::Vector3d nearness;      ///< 1/m: of x, of y, and at the picture's upper left corner
  double before = 1;             ///< by how much it counts as nearer than it is, so that it lies over its background

  [[nodiscard]] double nearness_at(const Eigen::Vector2d& place_px) const {
    return nearness.x() * place_px.x() + nearness.y() * place_px.y() + nearness.z();
  }
};

/// @return without edges where the face is turned away or not before the camera
FaceImage image_of(const ShownFace& face, const Camera& camera);

/// What a line across the picture shows from `begin` to `end`.
struct LineSpan {
  double begin_px;
  double end_px;
  int face;
};

/// What is seen along the line at a height of the picture, from its left to its right end without a gap; nothing where
/// there is no face at all.
///
/// @param among indices of the faces that may be on it
void see_line(const std::vector<FaceImage>& images, std::span<const int> among, double y_px, double width_px,
              std::vector<LineSpan>& seen);

}  // namespace evenlit
