#include "evenlit/photometry/distribution.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace evenlit {
namespace {

constexpr double k_deg_per_rad = 180 / std::numbers::pi;

/// Where a value lies among ascending knots: between `below` and `below + 1`, at `fraction` of the way.
struct Bracket {
  Eigen::Index below;
  double fraction;
};

/// @param value within the first and the last knot
Bracket bracket(const std::vector<double>& knots, double value) {
  const auto above = std::upper_bound(knots.begin() + 1, knots.end() - 1, value);
  const auto below = above - 1;
  return {below - knots.begin(), (value - *below) / (*above - *below)};
}

/// A direction's angles on the sphere: gamma in 0...180, C in 0...360.
struct Angles {
  double gamma_deg;
  double c_deg;
};

Angles wrapped(double gamma_deg, double c_deg) {
  gamma_deg = std::remainder(gamma_deg, 360);
  if (gamma_deg < 0) {
    gamma_deg = -gamma_deg;
    c_deg += 180;
  }
  c_deg = std::fmod(c_deg, 360);
  return {gamma_deg, c_deg < 0 ? c_deg + 360 : c_deg};
}

/// Mean over the full circle of the piecewise linear function of C, a value for each gamma.
Eigen::ArrayXd mean_over_c(const IntensityDistribution& d) {
  if (is_rotational(d)) return d.candela.col(0);
  Eigen::ArrayXd sum = Eigen::ArrayXd::Zero(d.candela.rows());
  for (Eigen::Index j = 1; j < d.candela.cols(); ++j) {
    sum += (d.c_deg[j] - d.c_deg[j - 1]) / 2 * (d.candela.col(j - 1) + d.candela.col(j));
  }
  return sum / 360;
}

/// Flux in the ring between two angles, where the intensity is linear in the angle.
///
/// With t the middle and h half the width: the mean intensity times the ring's solid angle 2 pi 2 sin t sin h, and the
/// slope times 2 pi times the integral of (x - t) sin x dx = 2 cos t (sin h - h cos h). No two large terms cancel here,
/// so narrow rings lose no digits.
double ring_lumens(double from_deg, double from_cd, double to_deg, double to_cd) {
  const double t = (from_deg + to_deg) / 2 / k_deg_per_rad;
  const double h = (to_deg - from_deg) / 2 / k_deg_per_rad;
  return 2 * std::numbers::pi *
         ((from_cd + to_cd) * std::sin(t) * std::sin(h) +
          (to_cd - from_cd) * std::cos(t) * (std::sin(h) / h - std::cos(h)));
}

}  // namespace

bool is_rotational(const IntensityDistribution& distribution) { return distribution.c_deg.size() == 1; }

double intensity_at(const IntensityDistribution& distribution, double gamma_deg, double c_deg) {
  const Angles at = wrapped(gamma_deg, c_deg);
  if (at.gamma_deg < distribution.gamma_deg.front() || at.gamma_deg > distribution.gamma_deg.back()) return 0;

  const auto [i, u] = bracket(distribution.gamma_deg, at.gamma_deg);
  const auto in_plane = [&distribution, i = i, u = u](Eigen::Index j) {
    return std::lerp(distribution.candela(i, j), distribution.candela(i + 1, j), u);
  };
  if (is_rotational(distribution)) return in_plane(0);

  const auto [j, v] = bracket(distribution.c_deg, at.c_deg);
  return std::lerp(in_plane(j), in_plane(j + 1), v);
}

double intensity_toward(const IntensityDistribution& distribution, const Eigen::Vector3d& direction) {
  const double gamma_rad = std::atan2(std::hypot(direction.x(), direction.y()), -direction.z());
  const double c_rad = is_rotational(distribution) ? 0 : std::atan2(direction.y(), direction.x());
  return intensity_at(distribution, gamma_rad * k_deg_per_rad, c_rad * k_deg_per_rad);
}

double lumens(const IntensityDistribution& distribution) { return zonal_lumens(distribution, 0, 180); }

double zonal_lumens(const IntensityDistribution& distribution, double from_deg, double to_deg) {
  const auto& gamma = distribution.gamma_deg;
  const Eigen::ArrayXd mean_cd = mean_over_c(distribution);
  double sum = 0;
  for (Eigen::Index i = 1; i < mean_cd.size(); ++i) {
    const double low_deg = std::max(from_deg, gamma[i - 1]);
    const double high_deg = std::min(to_deg, gamma[i]);
    if (low_deg >= high_deg) continue;
    const auto mean_cd_at = [&](double gamma_deg) {
      return std::lerp(mean_cd[i - 1], mean_cd[i], (gamma_deg - gamma[i - 1]) / (gamma[i] - gamma[i - 1]));
    };
    sum += ring_lumens(low_deg, mean_cd_at(low_deg), high_deg, mean_cd_at(high_deg));
  }
  return sum;
}

IntensityDistribution scaled(IntensityDistribution distribution, double factor) {
  distribution.candela *= factor;
  return distribution;
}

}  // namespace evenlit
