#pragma once

#include <Eigen/Core>
#include <array>
#include <cstdint>

namespace evenlit {

/// The share of full drive at which a screen gives a share of its light, 0...1.
///
/// @source IEC 61966-2-1:1999 (sRGB)
double encoded(double linear);

/// The share of its light that a screen gives at a share of full drive, 0...1.
///
/// @source IEC 61966-2-1:1999 (sRGB)
double decoded(double drive);

/// Luminance of linear red, green and blue of which white (1, 1, 1) has 1.
///
/// @source IEC 61966-2-1:1999 (sRGB)
inline const Eigen::Vector3d k_luminance_of_rgb{0.2126, 0.7152, 0.0722};

/// The colour of paint, wood or cloth as a screen shows it. Only its hue and purity count: how light a surface is, its
/// reflectance says.
struct SurfaceColour {
  std::array<std::uint8_t, 3> srgb{255, 255, 255};

  friend bool operator==(const SurfaceColour&, const SurfaceColour&) = default;
};

/// Linear red, green and blue of luminance 1: what a surface of that colour makes of white light. Black is taken as
/// grey.
Eigen::Vector3d tint_of(const SurfaceColour& colour);

}  // namespace evenlit
