#pragma once

#include <Eigen/Core>

#include "evenlit/base/degrees.hpp"

namespace evenlit {

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
