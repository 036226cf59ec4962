#include "plain_intensity.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace evenlit::reference {
namespace {

using Eigen::Vector3d;

/// From where gamma counts, and from where and toward where C counts.
struct Axes {
  Vector3d pole, start, quarter;
};

Axes axes_of(IntensityDistribution::Axis axis) {
  const Vector3d x = Vector3d::UnitX();
  const Vector3d y = Vector3d::UnitY();
  const Vector3d z = Vector3d::UnitZ();
  switch (axis) {
    case IntensityDistribution::Axis::along_c0:
      return {-x, -z, y};
    case IntensityDistribution::Axis::along_c90:
      return {-y, -z, -x};
    default:
      return {-z, x, y};
  }
}

double degrees(double radians) { return radians * 180 / std::numbers::pi; }

/// Calls `value(i)` for the two knots around `at` and weighs the results; 0 outside.
template <typename Value>
double between(const std::vector<double>& knots, double at, const Value& value) {
  if (at < knots.front() || at > knots.back()) return 0;
  const auto next = std::upper_bound(knots.begin(), knots.end(), at) - knots.begin();
  const auto i = std::min<std::ptrdiff_t>(next, std::ssize(knots) - 1) - 1;
  const double share = (at - knots[i]) / (knots[i + 1] - knots[i]);
  return (1 - share) * value(i) + share * value(i + 1);
}

}  // namespace

double plain_intensity(const IntensityDistribution& distribution, const Vector3d& direction) {
  const auto [pole, start, quarter] = axes_of(distribution.axis);
  const double along = start.dot(direction);
  const double aside = quarter.dot(direction);
  const double gamma_deg = degrees(std::atan2(std::sqrt(along * along + aside * aside), pole.dot(direction)));
  const auto in_plane = [&](Eigen::Index c) {
    return between(distribution.gamma_deg, gamma_deg, [&](Eigen::Index i) { return distribution.candela(i, c); });
  };
  if (distribution.c_deg.size() == 1) return in_plane(0);
  double c_deg = degrees(std::atan2(aside, along));
  while (c_deg < distribution.c_deg.front()) c_deg += 360;
  while (c_deg > distribution.c_deg.back() && c_deg - 360 >= distribution.c_deg.front()) c_deg -= 360;
  return between(distribution.c_deg, c_deg, in_plane);
}

}  // namespace evenlit::reference
