#include "evenlit/photometry/peak.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <tuple>

namespace evenlit {
namespace {

constexpr double k_deg_per_rad = 180 / std::numbers::pi;

/// The luminaire's angles of a direction that the table names by its own.
Peak in_luminaire(const IntensityDistribution& distribution, Peak at) {
  const bool is_vertical = distribution.axis == IntensityDistribution::Axis::vertical;
  if (!is_vertical) {
    const double gamma = at.gamma_deg / k_deg_per_rad;
    const double c = at.c_deg / k_deg_per_rad;
    const Eigen::Vector3d in_table(std::sin(gamma) * std::cos(c), std::sin(gamma) * std::sin(c), -std::cos(gamma));
    const Eigen::Vector3d direction = table_from_luminaire(distribution.axis).transpose() * in_table;
    const double level = std::hypot(direction.x(), direction.y());
    constexpr double k_rounding = 1e-12;
    at.gamma_deg =
        level < k_rounding ? (direction.z() < 0 ? 0 : 180) : std::atan2(level, -direction.z()) * k_deg_per_rad;
    at.c_deg = std::atan2(direction.y(), direction.x()) * k_deg_per_rad;
  }
  const bool at_pole = at.gamma_deg == 0 || at.gamma_deg == 180;
  const double around_deg = at_pole ? 0 : std::fmod(at.c_deg, 360);
  at.c_deg = around_deg < 0 ? around_deg + 360 : around_deg;
  return at;
}

}  // namespace

Peak peak(const IntensityDistribution& distribution) {
  const auto& d = distribution;
  const double most_cd = d.candela.maxCoeff();
  std::optional<Peak> best;
  for (Eigen::Index j = 0; j < d.candela.cols(); ++j) {
    for (Eigen::Index i = 0; i < d.candela.rows(); ++i) {
      if (d.candela(i, j) != most_cd) continue;
      const Peak here = in_luminaire(d, {most_cd, d.gamma_deg[i], d.c_deg[j]});
      if (!best || std::tie(here.gamma_deg, here.c_deg) < std::tie(best->gamma_deg, best->c_deg)) best = here;
    }
  }
  return best.value_or(Peak{});
}

}  // namespace evenlit
