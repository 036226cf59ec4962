#include "evenlit/moods/opening_light.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "evenlit/base/degrees.hpp"
#include "evenlit/photometry/luminance_table.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

bool is_round(const Opening& opening) {
  return opening.shape == Opening::Shape::disc || opening.shape == Opening::Shape::other;
}

Vector2d on_unit_circle(double angle_rad) { return {std::cos(angle_rad), std::sin(angle_rad)}; }

}  // namespace

OpeningLight light_toward(const Scene& scene, const Luminaire& luminaire, const Vector3d& point_m) {
  const Vector3d ray = luminaire.room_from_luminaire.transpose() * (point_m - luminaire.position_m);
  const IntensityDistribution& distribution = scene.distributions[static_cast<std::size_t>(luminaire.distribution)];
  const double candela = luminaire.level * luminaire.output * intensity_toward(distribution, ray);
  if (luminaire.opening.shape == Opening::Shape::point) return {candela, 0};
  const double gamma_deg = std::atan2(ray.head<2>().norm(), -ray.z()) * k_deg_per_rad;
  const double c_deg = std::atan2(ray.y(), ray.x()) * k_deg_per_rad;
  return {candela, projected_area_m2(luminaire.opening, gamma_deg, c_deg)};
}

Vector2d opening_sizes_m(const Opening& opening) {
  constexpr double k_thinnest_m = 1e-3;
  if (opening.shape == Opening::Shape::point) return {k_thinnest_m, k_thinnest_m};
  return {std::max(opening.length_m, k_thinnest_m), std::max(opening.width_m, k_thinnest_m)};
}

Vector3d place_on(const Luminaire& luminaire, const Vector2d& from_centre_m) {
  return luminaire.position_m + luminaire.room_from_luminaire.leftCols<2>() * from_centre_m;
}

Polygon opening_outline(const Opening& opening) {
  const Vector2d half = opening_sizes_m(opening) / 2;
  if (!is_round(opening)) return {-half, {half.x(), -half.y()}, half, {-half.x(), half.y()}};
  constexpr int k_corners = 64;
  Polygon outline;
  for (int i = 0; i < k_corners; ++i) {
    outline.emplace_back(half.cwiseProduct(on_unit_circle(2 * std::numbers::pi * i / k_corners)));
  }
  return outline;
}

std::vector<Vector2d> opening_points(const Opening& opening) {
  const Vector2d half = opening_sizes_m(opening) / 2;
  constexpr int k_along = 8;
  constexpr int k_points = k_along * k_along;
  std::vector<Vector2d> points;
  for (int i = 0; i < k_points; ++i) {
    if (is_round(opening)) {
      // Rings of equal area, each a golden section of the turn on from the last, as seeds sit in a sunflower.
      const double angle_rad = 2 * std::numbers::pi * i * (std::numbers::phi - 1);
      points.emplace_back(half.cwiseProduct(std::sqrt((i + 0.5) / k_points) * on_unit_circle(angle_rad)));
    } else {
      const Vector2d cell(i % k_along, i / k_along);
      points.emplace_back(half.cwiseProduct((2 * cell.array() + 1).matrix() / k_along - Vector2d::Ones()));
    }
  }
  return points;
}

double seen_share(const Visibility& visibility, const Luminaire& luminaire, const Vector3d& eye_m) {
  const std::vector<Vector2d> points = opening_points(luminaire.opening);
  const auto seen = std::ranges::count_if(
      points, [&](const Vector2d& point) { return visibility.is_clear(eye_m, place_on(luminaire, point)); });
  return static_cast<double>(seen) / static_cast<double>(points.size());
}

}  // namespace evenlit
