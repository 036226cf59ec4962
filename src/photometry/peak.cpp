#include "evenlit/photometry/peak.hpp"

#include <algorithm>
#include <optional>
#include <tuple>

#include "sphere.hpp"

namespace evenlit {
namespace {

/// The luminaire's angles of a direction that the table names by its own.
Peak in_luminaire(const IntensityDistribution& distribution, Peak at) {
  const bool is_vertical = distribution.axis == IntensityDistribution::Axis::vertical;
  if (!is_vertical) {
    constexpr double k_rounding = 1e-12;
    const Eigen::Vector3d direction =
        table_from_luminaire(distribution.axis).transpose() * direction_of(at.gamma_deg, at.c_deg);
    const bool is_upright = direction.head<2>().norm() < k_rounding;
    const Angles angles = angles_of(direction);
    at.gamma_deg = is_upright ? (direction.z() < 0 ? 0 : 180) : angles.gamma_deg;
    at.c_deg = angles.c_deg;
  }
  const bool at_pole = at.gamma_deg == 0 || at.gamma_deg == 180;
  at.c_deg = at_pole ? 0 : wrapped_c_deg(at.c_deg);
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
