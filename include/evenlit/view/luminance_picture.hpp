#pragma once

#include <Eigen/Core>
#include <array>

#include "evenlit/base/srgb.hpp"

namespace evenlit {

/// What an eye sees from a place, not yet as a screen shows it: linear red, green and blue in sRGB primaries, scaled so
/// that `k_luminance_of_rgb` sums them to the luminance in cd/m2. Colours that a screen cannot show have parts below 0.
struct LuminancePicture {
  int width = 0;
  int height = 0;
  std::array<Eigen::ArrayXf, 3> rgb_cd_m2;  ///< width x height each, finite, row by row from the top left
};

/// The luminance of each pixel, cd/m2.
inline Eigen::ArrayXf luminances_cd_m2(const LuminancePicture& picture) {
  const auto& [red, green, blue] = picture.rgb_cd_m2;
  const Eigen::Vector3f of = k_luminance_of_rgb.cast<float>();
  return of[0] * red + of[1] * green + of[2] * blue;
}

}  // namespace evenlit
