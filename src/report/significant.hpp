#pragma once

#include <string>

namespace evenlit {

/// `value`, >= 0, rounded to so many significant digits. Rounding noise, some 1e-13 of the value, is far below the
/// last.
double significant(double value, int digits);

/// The same as plain decimals, no exponent: `432.1`, `43210`, `0.004321`; `0` below 1e-9.
std::string significant_text(double value, int digits);

}  // namespace evenlit
