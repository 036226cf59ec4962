#include "evenlit/base/number.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <cstdlib>

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
  double value = 0;
#ifdef __cpp_lib_to_chars
  if (text.starts_with('+')) text.remove_prefix(1);
  if (std::from_chars(text.begin(), text.end(), value).ec != std::errc{}) return std::nullopt;
#else  // the standard library that the page is compiled with has no std::from_chars for double
  value = std::strtod(std::string(text).c_str(), nullptr);  // there is no other locale than C's
  if (!std::isfinite(value)) return std::nullopt;
#endif
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
