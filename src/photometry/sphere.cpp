#include "sphere.hpp"

#include <cmath>

namespace evenlit {

Eigen::Vector3d direction_of(double gamma_deg, double c_deg) {
  const double gamma = gamma_deg / k_deg_per_rad;
  const double c = c_deg / k_deg_per_rad;
  return {std::sin(gamma) * std::cos(c), std::sin(gamma) * std::sin(c), -std::cos(gamma)};
}

Angles angles_of(const Eigen::Vector3d& direction) {
  const double gamma = std::atan2(std::hypot(direction.x(), direction.y()), -direction.z());
  return {gamma * k_deg_per_rad, std::atan2(direction.y(), direction.x()) * k_deg_per_rad};
}

double wrapped_c_deg(double c_deg) {
  c_deg = std::fmod(c_deg, 360);
  if (c_deg < 0) c_deg += 360;
  return c_deg < 360 ? c_deg : 0;  // a C that rounding left just below 0 has become 360
}

}  // namespace evenlit
