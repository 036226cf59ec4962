#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "evenlit/photometry/distribution.hpp"

namespace evenlit::testing {

inline constexpr double k_rad_per_deg = std::numbers::pi / 180;

inline double cosine_power(double gamma_deg, double n) {
  return gamma_deg < 90 ? std::pow(std::cos(gamma_deg * k_rad_per_deg), n) : 0;
}

/// A rotational table of 1000 cos^n, 0 to 90 degrees.
inline IntensityDistribution cosine_power_table(double n, double step_deg) {
  IntensityDistribution d{{}, {0}, {}};
  const int steps = static_cast<int>(std::lround(90 / step_deg));
  for (int i = 0; i <= steps; ++i) d.gamma_deg.push_back(90.0 * i / steps);
  d.candela.resize(steps + 1, 1);
  for (int i = 0; i <= steps; ++i) d.candela(i) = 1000 * cosine_power(d.gamma_deg[i], n);
  return d;
}

/// The same beam as a table whose planes share a horizontal axis, in steps of a degree: type B.
inline IntensityDistribution cosine_power_type_b(double n) {
  IntensityDistribution d{{}, {}, {}, IntensityDistribution::Axis::along_c0};
  for (int deg = 0; deg <= 180; ++deg) d.gamma_deg.push_back(deg);
  for (int deg = -90; deg <= 90; ++deg) d.c_deg.push_back(deg);
  d.candela.resize(181, 181);
  for (int i = 0; i <= 180; ++i) {
    for (int j = 0; j <= 180; ++j) {
      const double gamma = d.gamma_deg[i] * k_rad_per_deg;
      const double c = d.c_deg[j] * k_rad_per_deg;
      const Eigen::Vector3d in_table(std::sin(gamma) * std::cos(c), std::sin(gamma) * std::sin(c), -std::cos(gamma));
      const double down = -(table_from_luminaire(d.axis).transpose() * in_table).z();
      d.candela(i, j) = 1000 * std::pow(std::max(0.0, down), n);
    }
  }
  return d;
}

/// Random intensities above and below the horizontal, a full circle of unequal planes.
inline IntensityDistribution random_table(std::mt19937& random) {
  std::uniform_real_distribution<double> step(5, 40), candela(1, 2000);
  IntensityDistribution d{{0}, {0}, {}};
  while (d.gamma_deg.back() < 140) d.gamma_deg.push_back(d.gamma_deg.back() + step(random));
  d.gamma_deg.back() = 180;
  while (d.c_deg.back() < 310) d.c_deg.push_back(d.c_deg.back() + step(random));
  d.c_deg.push_back(360);
  d.candela =
      Eigen::ArrayXXd::NullaryExpr(std::ssize(d.gamma_deg), std::ssize(d.c_deg), [&] { return candela(random); });
  d.candela.col(d.candela.cols() - 1) = d.candela.col(0);
  d.candela.row(0) = 900;
  d.candela.row(d.candela.rows() - 1) = 30;
  return d;
}

}  // namespace evenlit::testing
