#include "evenlit/placing/fan_check.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "evenlit/base/degrees.hpp"
#include "evenlit/job/mounting.hpp"
#include "evenlit/photometry/beam.hpp"
#include "evenlit/photometry/peak.hpp"

namespace evenlit {
namespace {

using Eigen::Vector3d;

constexpr double k_degrees = 180 / std::numbers::pi;
constexpr double k_field_share = 0.1;

double angle_deg(const Vector3d& a, const Vector3d& b) { return std::atan2(a.cross(b).norm(), a.dot(b)) * k_degrees; }

/// Unit, where a can is aimed.
Vector3d aim_of(const Mounting& mounting) {
  const double level = sine_of_degrees(mounting.tilt_deg);
  return {level * cosine_of_degrees(mounting.toward_deg), level * sine_of_degrees(mounting.toward_deg),
          -cosine_of_degrees(mounting.tilt_deg)};
}

/// The least angle between an aim and the directions from a point to a level disc.
double angle_to_disc_deg(const Vector3d& from, const Vector3d& aim, const Vector3d& centre, double radius_m) {
  // Straight at the disc.
  const double way = (centre.z() - from.z()) / aim.z();
  if (std::isfinite(way) && way > 0 && (from + way * aim - centre).norm() <= radius_m) return 0;
  constexpr int k_steps = 720;
  double least_deg = 180;
  for (int step = 0; step < k_steps; ++step) {
    const double turn_deg = 360.0 * step / k_steps;
    const Vector3d edge = centre + radius_m * Vector3d(cosine_of_degrees(turn_deg), sine_of_degrees(turn_deg), 0);
    least_deg = std::min(least_deg, angle_deg(aim, edge - from));
  }
  return least_deg;
}

}  // namespace

double field_cone_deg(const PhotometricFile& file) {
  const IntensityDistribution& distribution = file.distribution;
  const double peak_cd = peak(distribution).candela;
  const double end_deg =
      distribution.axis == IntensityDistribution::Axis::vertical ? distribution.gamma_deg.back() : 180;
  double half_deg = 0;
  for (const double c_deg : {0.0, 90.0}) {
    const auto edges = beam_edges(distribution, k_field_share * peak_cd, c_deg);
    half_deg = std::max(half_deg, edges ? std::max(std::abs(edges->from_deg), std::abs(edges->to_deg)) : end_deg);
  }
  return 2 * half_deg;
}

std::vector<FanHit> fan_check(const Job& job, std::span<const PhotometricFile> photometry) {
  std::vector<FanHit> hits;
  const Ceiling ceiling = ceiling_of(job.room);
  for (std::size_t can = 0; can < job.cans.size() && !job.fans.empty(); ++can) {
    const auto type = std::ranges::find(job.can_types, job.cans[can].type, &CanType::name) - job.can_types.begin();
    const double field_deg = field_cone_deg(photometry[static_cast<std::size_t>(type)]);
    const Mounting mounted = mounting(job.room, ceiling, job.cans[can]).value();
    for (std::size_t fan = 0; fan < job.fans.size(); ++fan) {
      const Eigen::Vector2d plan = plan_position(job.room, job.fans[fan].from).value();
      const Vector3d blades(plan.x(), plan.y(), ceiling.height_m(plan) - job.fans[fan].drop_m);
      const double blade_deg =
          angle_to_disc_deg(mounted.opening_m, aim_of(mounted), blades, job.fans[fan].diameter_m / 2);
      if (blade_deg > field_deg / 2) continue;
      hits.push_back({static_cast<int>(can), static_cast<int>(fan), field_deg, blade_deg});
    }
  }
  return hits;
}

}  // namespace evenlit
