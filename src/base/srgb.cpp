#include "evenlit/base/srgb.hpp"

#include <cmath>

namespace evenlit {

double encoded(double linear) {
  constexpr double k_straight_to = 0.0031308;
  return linear <= k_straight_to ? 12.92 * linear : 1.055 * std::pow(linear, 1 / 2.4) - 0.055;
}

double decoded(double drive) {
  constexpr double k_straight_to = 0.04045;
  return drive <= k_straight_to ? drive / 12.92 : std::pow((drive + 0.055) / 1.055, 2.4);
}

Eigen::Vector3d tint_of(const SurfaceColour& colour) {
  Eigen::Vector3d rgb;
  for (int i = 0; i < 3; ++i) rgb[i] = decoded(colour.srgb[i] / 255.0);
  const double luminance = k_luminance_of_rgb.dot(rgb);
  return luminance > 0 ? Eigen::Vector3d(rgb / luminance) : Eigen::Vector3d::Ones();
}

}  // namespace evenlit
