#pragma once

#include <span>

#include "evenlit/view/luminance_picture.hpp"

namespace evenlit {

/// What counts as no light: beside a lit room the eye sees nothing of it. Common practice, no source.
inline constexpr double k_darkest_cd_m2 = 1e-3;

/// The share of pixels that count as luminous openings, which an eye does not adapt to: the brightest ones. In rooms
/// they are some ten-thousandths, so that glints on what is polished are counted with them. Common practice, no source.
inline constexpr double k_share_of_openings = 0.01;

/// The luminances of pictures that are looked at together. Each is within 0.2 %, as a histogram tells it.
struct LuminanceRange {
  double darkest_cd_m2 = k_darkest_cd_m2;    ///< as large a share of the pixels as of openings is darker
  double usual_cd_m2 = k_darkest_cd_m2;      ///< the logarithmic average without openings
  double brightest_cd_m2 = k_darkest_cd_m2;  ///< without openings
};

/// @param pictures any number; pixels darker than `k_darkest_cd_m2` count as that dark
LuminanceRange luminance_range(std::span<const LuminancePicture> pictures);

}  // namespace evenlit
