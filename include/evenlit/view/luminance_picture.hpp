#pragma once

#include <Eigen/Core>
#include <array>

namespace evenlit {

/// The luminance of a light by its linear red, green and blue in sRGB primaries.
///
/// @source IEC 61966-2-1:1999
inline constexpr std::array<float, 3> k_luminance_of_rgb{0.2126F, 0.7152F, 0.0722F};

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
  return k_luminance_of_rgb[0] * red + k_luminance_of_rgb[1] * green + k_luminance_of_rgb[2] * blue;
}

}  // namespace evenlit
