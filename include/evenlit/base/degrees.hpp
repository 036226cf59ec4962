#pragma once

#include <numbers>

namespace evenlit {

inline constexpr double k_rad_per_deg = std::numbers::pi / 180;
inline constexpr double k_deg_per_rad = 180 / std::numbers::pi;

/// Sine and cosine of an angle in degrees; exact at multiples of 90, where photometric planes and walls sit.
double sine_of_degrees(double degrees);
double cosine_of_degrees(double degrees);

}  // namespace evenlit
