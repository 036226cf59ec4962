#pragma once

#include <Eigen/Core>
#include <span>

#include "evenlit/view/luminance_picture.hpp"

namespace evenlit {

// Light of a bright opening that scatters in the eye lies over all else as a veil. A screen is too dim to bring about
// the veil of the room that it shows, so the picture has to hold it.

/// How much an eye scatters. By itself a middle-aged one, common practice without a source.
struct Eye {
  double age_years = 40;  ///< 0...120
  double pigment = 0.5;   ///< 0 for black eyes, 0.5 for brown ones, 1 for green or blue, up to 1.2 for very light ones
};

/// The angles between which the formula of the veil holds.
inline constexpr double k_least_veil_angle_deg = 0.1;
inline constexpr double k_most_veil_angle_deg = 100;

/// The veil, cd/m2, for each lux at the eye of light that comes in beside the line of sight; held constant beyond the
/// angles above.
///
/// @source general disability glare equation: CIE 146:2002; J. J. Vos, "On the cause of disability glare and its
///         dependence on glare angle, age and ocular pigmentation", Clinical and Experimental Optometry 86 (2003)
///         (from memory)
double veil_cd_m2_per_lx(double angle_deg, const Eye& eye);

/// An opening as the eye sees it.
struct GlareSource {
  Eigen::Vector3f direction;                       ///< from the eye, of length 1
  double facing_lx = 0;                            ///< finite, >= 0; at the eye, on a surface that faces the opening
  Eigen::Vector3f tint = Eigen::Vector3f::Ones();  ///< its linear red, green and blue, of luminance 1
  double radius_deg = 0;                           ///< half of the angle that it subtends
};

/// A picture with the veil of all openings over it. As road lighting has it, light counts on a plane square to the line
/// of sight, which is that of the whole picture, so that openings at its side or behind it fade away; angles are from
/// each pixel's centre to the opening's. Closer than an opening's own radius the veil is as bright as at its rim.
///
/// Far from an opening the veil is evaluated on a lattice of 8 pixels and is straight between its lines, closer than
/// 16 such steps at each pixel: within 0.7 % of the formula everywhere.
///
/// @param axes columns right, down, forward, unit vectors square to each other, in the sources' frame
/// @param tan_half_width of the angle from the picture's middle to its left and right edges; pixels are square
LuminancePicture veiled(LuminancePicture picture, const Eigen::Matrix3f& axes, double tan_half_width,
                        std::span<const GlareSource> sources, const Eye& eye = {});

}  // namespace evenlit
