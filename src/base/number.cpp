#include "evenlit/base/number.hpp"

#include <fast_float/fast_float.h>  // not every standard library has std::from_chars for double
#include <fmt/format.h>

#include <cmath>

namespace evenlit {
namespace {

std::string_view without_digits(std::string_view text) {
  const auto end = text.find_first_not_of("0123456789");
  return end == std::string_view::npos ? std::string_view{} : text.substr(end);
}

std::string_view without_sign(std::string_view text) {
  return text.starts_with('+') || text.starts_with('-') ? text.substr(1) : text;
}

/// [sign] digits [. digits] [e [sign] digits], with a digit before or after the point.
bool is_decimal(std::string_view text) {
  text = without_sign(text);
  auto rest = without_digits(text);
  bool has_digits = rest.size() < text.size();
  if (rest.starts_with('.')) {
    const auto decimals = rest.substr(1);
    rest = without_digits(decimals);
    has_digits = has_digits || rest.size() < decimals.size();
  }
  if (rest.starts_with('e') || rest.starts_with('E')) {
    const auto exponent = without_sign(rest.substr(1));
    rest = without_digits(exponent);
    has_digits = has_digits && rest.size() < exponent.size();
  }
  return has_digits && rest.empty();
}

}  // namespace

std::optional<double> number_from_text(std::string_view text) {
  if (!is_decimal(text)) return std::nullopt;
  if (text.starts_with('+')) text.remove_prefix(1);
  double value = 0;
  const auto read = fast_float::from_chars(text.data(), text.data() + text.size(), value);
  if (read.ec != std::errc{} || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::string shortest_text(double value) { return fmt::format("{}", value); }

std::string fixed_text(double value, int decimals) {
  auto text = fmt::format("{:.{}f}", value, decimals);
  const bool is_zero = text.find_first_of("123456789") == std::string::npos;
  if (text.starts_with('-') && is_zero) text.erase(0, 1);
  return text;
}

}  // namespace evenlit
