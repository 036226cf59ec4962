#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "source.hpp"

namespace evenlit {

inline constexpr double k_largest_number = 1e9;  ///< anything above is damage, and products of the rest stay finite

/// Takes up to `count` lines off a text, each without blanks at its ends; an empty line counts.
std::vector<std::string_view> taken_lines(std::string_view& rest, std::size_t count);

/// The finite number that the whole text is, blanks around it aside. Lines hold one number each, so that a comma alone
/// is a decimal point; a text with several commas, or with a comma and a point, is no number.
std::optional<double> lone_number(std::string_view text);

/// A number, and what follows it.
struct NumberAndUnit {
  double value = 0;
  std::string_view unit;  ///< empty where nothing does
};

/// A number that a unit may follow: `600 mm`, `3000K`, `80 %`.
std::optional<NumberAndUnit> number_and_unit(std::string_view text);

/// Whether a text consists of what units are written with, and is not a way to write NaN or infinity.
bool is_unit(std::string_view text);

/// The number on a line that holds one, without the unit that may follow it, of which it warns; `instead` where it
/// appends a problem, because the line holds no number or one above `k_largest_number`.
///
/// @param name what the number is, for messages
double number_on_line(const Source& source, std::string_view line, std::string_view name, double instead,
                      Problems& problems, Problems& warnings);

/// Takes the text up to the next blank off the front of `rest`, and the blanks behind it.
std::string_view take_word(std::string_view& rest);

}  // namespace evenlit
