#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace evenlit {

/// The text in the letters that a keyboard has: typographic primes and quotation marks become ' and ", every dash and
/// minus -, a vulgar fraction such as ⅜ ` 3/8`, a no-break space a space; upper case becomes lower.
std::string plain_text(std::string_view text);

/// Takes a text apart from the left.
class TextScanner {
 public:
  explicit TextScanner(std::string_view text) : rest_(text) {}

  [[nodiscard]] bool is_at_end() const { return rest_.empty(); }

  void skip_spaces();

  /// Steps over `expected` if it comes next.
  bool take(std::string_view expected);

  /// Steps over an unsigned number: `12`, `6.375`, `3/8`, `6-3/8`, `6 3/8`. Empty, and nothing is stepped over, where
  /// there is none, where it is too large for a double, or where a denominator is 0.
  std::optional<double> take_number();

  /// Steps over the letters that come next.
  std::string_view take_letters();

 private:
  std::string_view take_all_of(std::string_view set);
  std::optional<double> take_fraction();
  std::optional<double> take_decimal();

  std::string_view rest_;
};

}  // namespace evenlit
