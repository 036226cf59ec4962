#pragma once

#include <algorithm>

#include "evenlit/view/luminance_picture.hpp"

namespace evenlit::sample {

/// A picture of one luminance and colour.
inline LuminancePicture plain(int width, int height, float cd_m2, const Eigen::Array3f& tint = Eigen::Array3f::Ones()) {
  LuminancePicture picture{width, height, {}};
  for (int channel = 0; channel < 3; ++channel) {
    picture.rgb_cd_m2[channel] = Eigen::ArrayXf::Constant(width * height, cd_m2 * tint[channel]);
  }
  return picture;
}

/// Looking down a room of grey surfaces with light of one level on its floor: ceiling, wall with brighter spots below
/// cans, floor. Each is brighter in its middle than at its ends.
inline LuminancePicture room(float floor_lx) {
  constexpr float k_pi = 3.14159265F;
  LuminancePicture picture = plain(160, 90, 0);
  for (int y = 0; y < picture.height; ++y) {
    for (int x = 0; x < picture.width; ++x) {
      const bool is_ceiling = y < 25;
      const bool is_floor = y >= 65;
      const float reflectance = is_ceiling ? 0.8F : is_floor ? 0.25F : 0.55F;
      const float lit_share = is_ceiling ? 0.3F : is_floor ? 1.0F : 0.6F;
      const float middle = 1 - std::abs(static_cast<float>(x) - 80) / 160;
      const float spot = !is_ceiling && !is_floor && x % 40 < 12 ? 2.5F : 1;
      for (auto& channel : picture.rgb_cd_m2) {
        channel[y * picture.width + x] = floor_lx * lit_share * middle * spot * reflectance / k_pi;
      }
    }
  }
  return picture;
}

}  // namespace evenlit::sample
