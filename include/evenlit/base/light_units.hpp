#pragma once

#include <string>
#include <string_view>
#include <tl/expected.hpp>

#include "evenlit/base/length.hpp"

namespace evenlit {

/// 1 fc = 1 lm/ft2 = 1/0.3048^2 lx, exact by the definition of the foot.
inline constexpr double k_lux_per_footcandle = 1.0 / (k_metres_per_foot * k_metres_per_foot);

/// `300 lx`, `30 fc` (also `lux`, `footcandles`, `foot-candles`, `ft-c`), >= 0.
///
/// @return lux, finite
tl::expected<double, TextProblem> lux_from_text(std::string_view text);

/// Text that `lux_from_text` turns back into exactly the same double: foot-candles in an imperial job where a few
/// decimals of them do, lux otherwise.
std::string exact_illuminance_text(double lux, Units units);

/// A fraction of light: a number 0 to 1, `80 %`, or `LRV 80` (light reflectance value, percent).
///
/// @return 0...1
tl::expected<double, TextProblem> fraction_from_text(std::string_view text);

}  // namespace evenlit
