#pragma once

namespace evenlit {

/// Sine and cosine of an angle in degrees; exact at multiples of 90, where photometric planes and walls sit.
double sine_of_degrees(double degrees);
double cosine_of_degrees(double degrees);

}  // namespace evenlit
