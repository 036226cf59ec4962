#pragma once

#include <Eigen/Core>
#include <numbers>

namespace evenlit {

inline constexpr double k_rad_per_deg = std::numbers::pi / 180;
inline constexpr double k_deg_per_rad = 180 / std::numbers::pi;

/// Angles of a direction: gamma from straight down, C around from +x toward +y.
struct Angles {
  double gamma_deg;
  double c_deg;
};

/// The unit vector toward gamma and C; in a table's own frame, toward the table's angles.
Eigen::Vector3d direction_of(double gamma_deg, double c_deg);

/// Gamma in 0...180 and C in -180...180 of a vector of any length.
Angles angles_of(const Eigen::Vector3d& direction);

/// C in 0...360, 360 itself left out.
double wrapped_c_deg(double c_deg);

}  // namespace evenlit
