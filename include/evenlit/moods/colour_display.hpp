#pragma once

#include <Eigen/Core>

#include "evenlit/base/srgb.hpp"
#include "evenlit/moods/colour.hpp"

namespace evenlit {

/// Red, green and blue of a screen, proportional to light: 1, 1, 1 is its white. Less than 0 or more than 1 is what
/// the screen cannot show.
///
/// @param tristimulus relative to a white of Y = 1 and the colour `k_d65`
/// @source IEC 61966-2-1:1999 (sRGB), its matrix taken from the primaries, so that white is exact
Eigen::Vector3d linear_rgb(const Eigen::Vector3d& tristimulus);

/// Tristimulus values that look to an eye used to one white as the given ones do to an eye used to another.
///
/// @source Bradford transform: ICC.1:2010, annex E (matrix from memory)
Eigen::Vector3d adapted(const Eigen::Vector3d& tristimulus, const Chromaticity& from_white,
                        const Chromaticity& to_white);

/// How a light looks on a screen to an eye that is used to a white: linear red, green and blue, of luminance 1, none
/// below 0. A light of that white is 1, 1, 1; a warmer one is tinted toward orange. What is purer than the screen can
/// show is mixed with white just as far as needed.
Eigen::Vector3d tint(const Chromaticity& light, const Chromaticity& white);

}  // namespace evenlit
