#include "evenlit/base/figures.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/base/light_units.hpp"
#include "evenlit/base/number.hpp"

namespace evenlit {

std::string rounded_text(double value, double error) {
  if (value == 0) return "0";
  const double finest = error > 0 ? std::floor(std::log10(error)) : -300;
  int last_digit = static_cast<int>(std::clamp(std::floor(std::log10(value)) - 2, std::max(finest, -9.0), 300.0));
  if (std::round(value / std::pow(10.0, last_digit)) >= 1000) ++last_digit;  // rounded up to a digit more: 9.996
  if (last_digit <= 0) return fixed_text(value, -last_digit);
  const double unit = std::pow(10.0, last_digit);
  return fixed_text(std::round(value / unit) * unit, 0);
}

std::string lux_text(double lx, double error_lx) { return rounded_text(lx, error_lx) + " lx"; }

std::string footcandle_text(double lx, double error_lx) {
  return rounded_text(lx / k_lux_per_footcandle, error_lx / k_lux_per_footcandle) + " fc";
}

std::string illuminance_text(double lx, double error_lx, Units units) {
  return units == Units::imperial ? footcandle_text(lx, error_lx) : lux_text(lx, error_lx);
}

std::string illuminance_both_text(double lx, double error_lx, Units units) {
  const Units other = units == Units::imperial ? Units::metric : Units::imperial;
  return illuminance_text(lx, error_lx, units) + " (" + illuminance_text(lx, error_lx, other) + ")";
}

std::string percent_text(double fraction) { return fixed_text(100 * fraction, 0) + " %"; }

std::string error_percent_text(double fraction) { return fixed_text(std::ceil(1000 * fraction) / 10, 1) + " %"; }

}  // namespace evenlit
