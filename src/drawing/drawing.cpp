#include "evenlit/drawing/drawing.hpp"

#include <algorithm>
#include <cmath>

namespace evenlit {

Polyline circle(const Eigen::Vector2d& centre, double radius) {
  constexpr double k_sagitta = 0.05;
  const double step = 2 * std::acos(std::max(0.0, 1 - k_sagitta / std::max(radius, 2 * k_sagitta)));
  const double whole = 4 * std::acos(0.0);
  const int corners = std::max(12, static_cast<int>(std::ceil(whole / step)));
  Polyline outline;
  for (int i = 0; i < corners; ++i) {
    const double angle = whole * i / corners;
    outline.emplace_back(centre + radius * Eigen::Vector2d(std::cos(angle), std::sin(angle)));
  }
  return outline;
}

}  // namespace evenlit
