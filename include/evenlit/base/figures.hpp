#pragma once

#include <string>

#include "evenlit/base/length.hpp"

namespace evenlit {

// How a calculated number is written for people: three significant digits, and none finer than the leading digit of its
// error. The printed digits then stand far above rounding noise and are the same on every machine.

/// @param value >= 0
/// @param error >= 0, of the value
std::string rounded_text(double value, double error = 0);

/// `360 lx`
std::string lux_text(double lx, double error_lx = 0);

/// `33.4 fc`
std::string footcandle_text(double lx, double error_lx = 0);

/// In the unit that the job's trade uses.
std::string illuminance_text(double lx, double error_lx, Units units);

/// In both units, the trade's first: `33.4 fc (360 lx)`.
std::string illuminance_both_text(double lx, double error_lx, Units units);

/// `fraction` in whole percent.
std::string percent_text(double fraction);

/// A relative error, rounded up to a tenth of a percent: `0.4 %`.
std::string error_percent_text(double fraction);

}  // namespace evenlit
