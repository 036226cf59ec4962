#include "eulumdat_numbers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "eulumdat_lines.hpp"

namespace evenlit {
EulumdatNumbers::EulumdatNumbers(const Source& source, std::string_view text, std::size_t most)
    : source_(source), text_(text) {
  bool after_blank_line = false;
  for (std::string_view rest = text; !rest.empty() && numbers_.size() < most;) {
    const std::string_view line = trimmed(take_line(rest));
    if (!line.empty() && !read_line(line, after_blank_line, most)) return;
    after_blank_line = line.empty();
  }
}

bool EulumdatNumbers::read_line(std::string_view line, bool after_blank_line, std::size_t most) {
  bool begins_line = true;
  while (!line.empty() && numbers_.size() < most) {
    const std::string_view word = take_word(line);
    if (!begins_line && is_unit(word)) {
      numbers_.back().has_unit = true;
      continue;
    }
    const auto number = number_and_unit(word);
    if (!number) {
      not_a_number_ = word;
      return false;
    }
    constexpr std::size_t k_longest = std::numeric_limits<std::uint16_t>::max();
    numbers_.push_back({.value = number->value,
                        .offset = static_cast<std::uint32_t>(word.data() - text_.data()),
                        .size = static_cast<std::uint16_t>(std::min(word.size(), k_longest)),
                        .begins_line = begins_line,
                        .after_blank_line = begins_line && after_blank_line,
                        .has_unit = !number->unit.empty()});
    begins_line = false;
  }
  return true;
}

void EulumdatNumbers::report(std::size_t used, Problems& warnings) const {
  Recurring crowded, spread, with_unit;
  for (std::size_t i = 0; i < used; ++i) {
    if (!numbers_[i].begins_line) crowded.note(source_, text_of(i));
    if (numbers_[i].after_blank_line) spread.note(source_, text_of(i));
    if (numbers_[i].has_unit) with_unit.note(source_, text_of(i));
  }
  crowded.report(warnings, "more than one number on a line", "write each number on a line of its own");
  spread.report(warnings, "blank lines between numbers, passed over");
  with_unit.report(warnings, "text after a number is not used", "write the number alone");
  report_rest(used, warnings);
}

void EulumdatNumbers::report_rest(std::size_t used, Problems& warnings) const {
  const Number& last = numbers_[used - 1];
  std::string_view rest = text_.substr(last.offset + last.size);
  if (last.has_unit) take_line(rest);
  std::string_view first;
  int lines = 0;
  while (!rest.empty()) {
    const std::string_view line = trimmed(take_line(rest));
    if (line.empty()) continue;
    if (first.empty()) first = line;
    ++lines;
  }
  if (lines == 0) return;
  warnings.push_back({source_.place(first), fmt::format("lines after the intensity table, ignored: {}", lines), ""});
}

}  // namespace evenlit
