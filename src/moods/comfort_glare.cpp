#include "evenlit/moods/comfort_glare.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "evenlit/base/degrees.hpp"
#include "evenlit/moods/opening_light.hpp"

namespace evenlit {
namespace {

using Eigen::Vector3d;

/// The angle between the vertical and the plane of source and line of sight; 90 for what is below the line of sight.
double from_vertical_deg(const Sightline& sight, const Vector3d& to_source) {
  constexpr double k_upright = 1e-6;
  const Vector3d left = Vector3d::UnitZ().cross(sight.direction);
  const double up = sight.direction.cross(left).dot(to_source);  // both as long as `left`
  if (left.norm() < k_upright || up <= 0) return 90;
  return std::atan2(std::abs(left.dot(to_source)), up) * k_deg_per_rad;
}

/// How much a source glares: L^2 w / p^2.
double glare_of(const GlareSource& source) {
  return source.luminance_cd_m2 * source.luminance_cd_m2 * source.solid_angle_sr /
         (source.position_index * source.position_index);
}

/// One of the scene's luminaires as the eye sees it, as far as it sees any light of it.
std::optional<GlareSource> source_of(const Scene& scene, const Visibility& visibility, const Sightline& sight,
                                     int index) {
  constexpr double k_least_area_m2 = 0.005;
  const Luminaire& luminaire = scene.luminaires[static_cast<std::size_t>(index)];
  const Vector3d to_source = luminaire.position_m - sight.eye_m;
  const double forward_m = sight.direction.dot(to_source);
  if (!(forward_m > 0)) return std::nullopt;
  const OpeningLight light = light_toward(scene, luminaire, sight.eye_m);
  const double share = light.candela > 0 ? seen_share(visibility, luminaire, sight.eye_m) : 0;
  if (share == 0) return std::nullopt;
  const double area_m2 = std::max(light.projected_area_m2, k_least_area_m2);
  const double whole_sr = std::min(area_m2 / to_source.squaredNorm(), 2 * std::numbers::pi);
  const double off_sight_deg = std::atan2(sight.direction.cross(to_source).norm(), forward_m) * k_deg_per_rad;
  return GlareSource{.luminaire = index,
                     .luminance_cd_m2 = light.candela / area_m2,
                     .solid_angle_sr = share * whole_sr,
                     .position_index = position_index(from_vertical_deg(sight, to_source), off_sight_deg)};
}

}  // namespace

double position_index(double from_vertical_deg, double off_sight_deg) {
  const double a = from_vertical_deg;
  const double b = off_sight_deg;
  const double straight = (35.2 - 0.31889 * a - 1.22 * std::exp(-2 * a / 9)) * 1e-3;
  const double curved = (21 + 0.26667 * a - 0.002963 * a * a) * 1e-5;
  return std::exp(b * (straight + b * curved));
}

Glare glare(const Scene& scene, const Visibility& visibility, const Sightline& sight, double indirect_lx) {
  Glare result{.background_cd_m2 = indirect_lx / std::numbers::pi};
  double sum = 0;
  for (int i = 0; i < static_cast<int>(scene.luminaires.size()); ++i) {
    const auto source = source_of(scene, visibility, sight, i);
    if (!source) continue;
    result.sources.push_back(*source);
    sum += glare_of(*source);
  }
  if (!(sum > 0)) return result;
  for (GlareSource& source : result.sources) source.share = glare_of(source) / sum;
  result.worst = std::ranges::max_element(result.sources, {}, &GlareSource::share)->luminaire;
  if (result.background_cd_m2 > 0) result.unified_rating = 8 * std::log10(0.25 / result.background_cd_m2 * sum);
  return result;
}

}  // namespace evenlit
