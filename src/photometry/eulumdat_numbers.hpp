#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "source.hpp"

namespace evenlit {

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

/// The numbers of a text whose lines should hold one each.
class EulumdatNumbers {
 public:
  /// Reads up to `most` numbers, to the first text that is none. Memory is taken for what the text holds.
  EulumdatNumbers(const Source& source, std::string_view text, std::size_t most);

  std::size_t size() const { return numbers_.size(); }
  double operator[](std::size_t i) const { return numbers_[i].value; }

  Place place(std::size_t i) const { return source_.place(text_of(i)); }
  Place end() const { return source_.place(text_.substr(text_.size())); }

  std::string_view text_of(std::size_t i) const { return text_.substr(numbers_[i].offset, numbers_[i].size); }

  /// What stands where the next number should; empty at the end of the text.
  std::string_view not_a_number() const { return not_a_number_; }

  /// Warns of how the first `used` numbers are written, and of what follows them.
  void report(std::size_t used, Problems& warnings) const;

 private:
  struct Number {
    double value;
    std::uint32_t offset;
    std::uint16_t size;
    bool begins_line : 1;
    bool after_blank_line : 1;
    bool has_unit : 1;
  };

  /// Returns whether the whole line could be read.
  bool read_line(std::string_view line, bool after_blank_line, std::size_t most);
  void report_rest(std::size_t used, Problems& warnings) const;

  const Source& source_;
  std::string_view text_;
  std::vector<Number> numbers_;
  std::string_view not_a_number_;
};

}  // namespace evenlit
