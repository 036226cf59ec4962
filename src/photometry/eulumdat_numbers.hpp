#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "source.hpp"

namespace evenlit {

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
