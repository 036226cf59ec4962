#include "significant.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/base/number.hpp"

namespace evenlit {

double significant(double value, int digits) {
  return number_from_text(fmt::format("{:.{}e}", value, digits - 1)).value_or(0);
}

std::string significant_text(double value, int digits) {
  constexpr double k_nothing = 1e-9;
  if (value < k_nothing) return "0";
  const double rounded = significant(value, digits);
  const int decimals = digits - 1 - static_cast<int>(std::floor(std::log10(rounded) + 1e-12));
  return fixed_text(rounded, std::max(0, decimals));
}

}  // namespace evenlit
