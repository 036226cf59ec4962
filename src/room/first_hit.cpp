#include "evenlit/room/first_hit.hpp"

#include <algorithm>

namespace evenlit {
namespace {

/// An eye this near a surface touches it, and surfaces that meet leave no gap wider than this.
constexpr double k_touching_m = 2e-5;

}  // namespace

bool is_on_free_part(const Surface& surface, const Eigen::Vector3d& point) {
  const FaceFrame frame = frame_of(surface.corners_m, surface.normal);
  const Eigen::Vector2d flat_point = frame.flat(point);
  bool inside = false;
  for (const Outline& outline : surface.free_m) {
    Polygon flat;
    for (const auto& corner : outline) flat.push_back(frame.flat(corner));
    if (distance_to_outline(flat, flat_point) <= k_touching_m) return true;
    if (is_inside(flat, flat_point)) inside = !inside;  // a hole lies inside of an outline
  }
  return inside;
}

std::optional<SurfacePoint> first_hit(const Scene& scene, const Eigen::Vector3d& eye_m,
                                      const Eigen::Vector3d& direction) {
  std::optional<SurfacePoint> hit;
  double nearest_m = 0;
  for (int i = 0; i < static_cast<int>(scene.surfaces.size()); ++i) {
    const Surface& surface = scene.surfaces[i];
    const double approach = -surface.normal.dot(direction);
    if (approach <= 0) continue;
    const double above_m = surface.normal.dot(eye_m - surface.corners_m.front());
    const double distance_m = std::max(above_m, 0.0) / approach;
    if (above_m < -k_touching_m || (hit && distance_m >= nearest_m)) continue;
    const Eigen::Vector3d point = eye_m + distance_m * direction;
    if (!is_on_free_part(surface, point)) continue;
    hit = {i, point};
    nearest_m = distance_m;
  }
  return hit;
}

}  // namespace evenlit
