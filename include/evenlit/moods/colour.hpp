#pragma once

#include <Eigen/Core>
#include <optional>
#include <span>

namespace evenlit {

// Colour of light by the CIE 1931 standard observer (2 degrees).

/// CIE 1931 chromaticity coordinates; y > 0, as of every light that can be seen.
struct Chromaticity {
  double x = 0;
  double y = 0;

  friend bool operator==(const Chromaticity&, const Chromaticity&) = default;
};

/// The white that screens are made for, D65 rounded as IEC 61966-2-1:1999 has it.
inline constexpr Chromaticity k_d65{0.3127, 0.3290};

/// CIE 1976 u', v': equal distances are roughly equal differences to the eye, so that the distance between two lights
/// tells how far apart they look side by side.
///
/// @source CIE 15:2018
Eigen::Vector2d uniform_coordinates(const Chromaticity& chromaticity);

/// Tristimulus values X, Y, Z of a light whose Y, luminous flux or luminance, is given.
Eigen::Vector3d tristimulus(const Chromaticity& chromaticity, double luminous);

/// @param tristimulus of which Y > 0
Chromaticity chromaticity_of(const Eigen::Vector3d& tristimulus);

/// The temperatures that correlated colour temperatures are told in.
inline constexpr double k_coolest_black_body_kelvin = 1000;
inline constexpr double k_hottest_black_body_kelvin = 25'000;

/// The colour of a black body: Planck's law with c2 = 1.4388e-2 m K, summed over the observer at 5 nm, 360 to 830 nm.
///
/// @param kelvin within the two above
/// @source CIE 15:2018
Chromaticity black_body(double kelvin);

/// How warm or cool a white light looks, and how far its colour is from a black body's.
struct WhiteTone {
  double kelvin = 0;  ///< correlated colour temperature
  double duv = 0;     ///< distance from the black body in CIE 1960 u, v: above it, toward green, positive; below it,
                      ///< toward pink, negative
};

/// Beyond this distance from the black body a light is called coloured and has no colour temperature.
inline constexpr double k_white_within_duv = 0.05;

/// The temperature of the black body nearest in CIE 1960 u, v.
///
/// @return empty where that is farther than `k_white_within_duv` or outside of the temperatures above
/// @source CIE 15:2018 (definition and limit from memory); ANSI C78.377 (sign of Duv, from memory)
std::optional<WhiteTone> white_tone(const Chromaticity& chromaticity);

/// The colour of a white light: what `white_tone` finds again while the black body is the nearest one.
Chromaticity chromaticity_of(const WhiteTone& tone);

/// A part of a light of more colours: what a group of luminaires gives at its dimmer level.
struct ColouredLight {
  double lumens = 0;
  Chromaticity chromaticity;
};

/// Colour of lights together.
struct MixedLight {
  double lumens = 0;
  Chromaticity chromaticity;
  std::optional<WhiteTone> tone;  ///< empty where `white_tone` is
};

/// What lights that mix fully look like: tristimulus values add up.
///
/// @param lights lumens finite, >= 0
/// @return empty in the dark
/// @source Grassmann's laws: CIE 15:2018
std::optional<MixedLight> mixed_light(std::span<const ColouredLight> lights);

}  // namespace evenlit
