#pragma once

#include <cmath>

// Angles of directions in degrees, in arithmetic that a compiler turns into vector instructions.

namespace evenlit {

/// The arc tangent of 0...1: that times a polynomial in its square whose largest error is least (Remez), 2.2e-6
/// degrees. Pairs of terms do not wait for each other (Estrin).
[[gnu::always_inline]] inline float arc_tangent_deg(float t) {
  const float s = t * t;
  const float s2 = s * s;
  const float low = (-19.0966034F + 11.4285402F * s) + (-7.96905756F + 5.52457237F * s) * s2;
  const float high = (-3.20354033F + 1.25265527F * s) - 0.23230961F * s2;
  return t * (57.2957420F + (low + high * (s2 * s2)) * s);
}

[[gnu::always_inline]] inline float smaller(float a, float b) { return a < b ? a : b; }
[[gnu::always_inline]] inline float larger(float a, float b) { return a > b ? a : b; }

/// An angle as the nearest axis's, 0, 90 or 180 degrees (and its negative), and what is beside that, at most 45: their
/// sum would round off what the small one knows.
struct Angle {
  float axis_deg, beside_deg;
};

/// The angle from +x, 0...180, of (x, y) with y >= 0. `beside_deg` is within 5e-6 degrees.
///
/// @param ratio the smaller of |x| and y over the larger; so that several angles can share one division
[[gnu::always_inline]] inline Angle upper_angle(float x, float y, float ratio) {
  const float within_45 = arc_tangent_deg(ratio);
  const bool is_steep = y > std::abs(x);
  const float to_the_right = is_steep ? -within_45 : within_45;
  const float beside_deg = x < 0 ? -to_the_right : to_the_right;
  const float flat_deg = x < 0 ? 180.0F : 0.0F;
  return {is_steep ? 90 : flat_deg, beside_deg};
}

}  // namespace evenlit
