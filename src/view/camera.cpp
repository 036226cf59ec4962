#include "evenlit/view/camera.hpp"

#include <Eigen/Geometry>
#include <cmath>

#include "evenlit/base/degrees.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

Looking looking_at(const Vector3d& eye_m, const Vector3d& point_m) {
  constexpr double k_upright_m = 1e-9;
  const Vector3d to = point_m - eye_m;
  const double aside_m = to.head<2>().norm();
  const double toward_deg = aside_m > k_upright_m ? std::atan2(to.y(), to.x()) * k_deg_per_rad : 90;
  return {.toward_deg = toward_deg, .tilt_deg = std::atan2(to.z(), aside_m) * k_deg_per_rad};
}

}  // namespace

Vector3d Camera::ray(const Vector2d& place_px) const {
  return forward + (place_px.x() - 0.5 * size.width) / focal_px * right +
         (0.5 * size.height - place_px.y()) / focal_px * up;
}

std::optional<Vector2d> Camera::place_px(const Vector3d& point_m) const {
  const Vector3d to = point_m - eye_m;
  const double ahead_m = forward.dot(to);
  if (!(ahead_m > 0)) return std::nullopt;
  return Vector2d(0.5 * size.width + focal_px * right.dot(to) / ahead_m,
                  0.5 * size.height - focal_px * up.dot(to) / ahead_m);
}

Camera camera_at(const Vector3d& eye_m, const Looking& looking, double width_deg, const PictureSize& size) {
  const Vector2d toward(cosine_of_degrees(looking.toward_deg), sine_of_degrees(looking.toward_deg));
  const double level = cosine_of_degrees(looking.tilt_deg);
  const double rise = sine_of_degrees(looking.tilt_deg);
  return {.eye_m = eye_m,
          .forward = {level * toward.x(), level * toward.y(), rise},
          .right = {toward.y(), -toward.x(), 0},
          .up = {-rise * toward.x(), -rise * toward.y(), level},
          .size = size,
          .focal_px = 0.5 * size.width / std::tan(width_deg / 2 / k_deg_per_rad)};
}

Camera camera_of(const Shape& room, const Viewpoint& view, const PictureSize& size) {
  const Vector2d plan = plan_position(room, view.from).value();
  const Vector3d eye(plan.x(), plan.y(), view.height_m);
  if (const auto* looking = std::get_if<Looking>(&view.at)) return camera_at(eye, *looking, view.width_deg, size);
  const Spot& spot = std::get<Spot>(view.at);
  const Vector2d seen = plan_position(room, spot.from).value();
  return camera_at(eye, looking_at(eye, {seen.x(), seen.y(), spot.height_m}), view.width_deg, size);
}

}  // namespace evenlit
