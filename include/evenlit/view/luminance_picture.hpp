#pragma once

#include <Eigen/Core>
#include <array>

namespace evenlit {

/// A picture of luminances, row by row from the top left. Red, green and blue are linear, of the primaries of sRGB,
/// scaled so that `k_luminance_of_rgb` (base/srgb.hpp) makes the luminance in cd/m2 of them.
struct LuminancePicture {
  int width = 0;
  int height = 0;
  std::array<Eigen::ArrayXf, 3> rgb_cd_m2;
};

}  // namespace evenlit
