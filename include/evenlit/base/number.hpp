#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace evenlit {

/// The finite number that the whole of `text` spells (decimal point, optional sign and exponent), independent of the
/// locale; empty when it is anything else.
std::optional<double> number_from_text(std::string_view text);

/// The shortest decimal text that reads back as the same double.
std::string shortest_text(double value);

/// `value` to the given number of decimals, locale-independent; never prints `-0`.
std::string fixed_text(double value, int decimals);

}  // namespace evenlit
