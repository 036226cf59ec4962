#pragma once

#include <Eigen/Geometry>
#include <random>
#include <vector>

#include "evenlit/base/srgb.hpp"
#include "evenlit/room/scene.hpp"
#include "evenlit/view/camera.hpp"
#include "evenlit/view/room_view.hpp"

namespace evenlit {

/// An eye in the open, somewhere in the room.
inline Eigen::Vector3d eye_in(const Scene& scene, std::mt19937_64& random) {
  std::uniform_real_distribution<double> unit(0, 1);
  const Eigen::AlignedBox2d bounds = bounds_of(scene.plan_m);
  for (;;) {
    const Eigen::Vector2d share(unit(random), unit(random));
    const Eigen::Vector2d plan = bounds.min() + share.cwiseProduct(bounds.sizes());
    const Eigen::Vector3d eye(plan.x(), plan.y(), (0.1 + 0.8 * unit(random)) * scene.ceiling.height_m(plan));
    const bool is_open = std::ranges::none_of(scene.boxes, [&](const Box& box) { return is_inside(box, eye); });
    if (is_open && is_inside(scene.plan_m, plan) && distance_to_outline(scene.plan_m, plan) > 0.02) return eye;
  }
}

inline Camera camera_in(const Scene& scene, const PictureSize& size, std::mt19937_64& random) {
  std::uniform_real_distribution<double> unit(0, 1);
  const Looking looking{.toward_deg = 360 * unit(random), .tilt_deg = 180 * unit(random) - 90};
  return camera_at(eye_in(scene, random), looking, 30 + 80 * unit(random), size);
}

/// Each luminaire a group of its own.
inline std::vector<LuminaireLook> looks_of(const Scene& scene) {
  std::vector<LuminaireLook> looks;
  for (int i = 0; i < static_cast<int>(scene.luminaires.size()); ++i) looks.push_back({.group = i, .hole_m = {}});
  return looks;
}

/// All luminaires together.
inline std::vector<LuminaireLook> one_group(const Scene& scene) {
  return std::vector<LuminaireLook>(scene.luminaires.size());
}

/// Of parts of pixels those that fill one and show a surface.
struct WholePixel {
  Eigen::Index pixel;
  int surface;
  Eigen::Vector3d position_m;
};

std::vector<WholePixel> whole_pixels(const Scene& scene, const std::vector<LuminaireLook>& looks, const Camera& camera);

}  // namespace evenlit
