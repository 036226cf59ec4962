#include "eulumdat_numbers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "evenlit/base/number.hpp"
#include "limits.hpp"

namespace evenlit {

std::vector<std::string_view> taken_lines(std::string_view& rest, std::size_t count) {
  std::vector<std::string_view> lines;
  while (lines.size() < count && !rest.empty()) lines.push_back(trimmed(take_line(rest)));
  return lines;
}

std::optional<double> lone_number(std::string_view text) {
  text = trimmed(text);
  const std::size_t comma = text.find(',');
  if (comma == text.npos) return number_from_text(text);
  if (text.find_first_of(",.", comma + 1) != text.npos || text.find('.') != text.npos) return std::nullopt;
  std::string with_point(text);
  with_point[comma] = '.';
  return number_from_text(with_point);
}

std::optional<NumberAndUnit> number_and_unit(std::string_view text) {
  text = trimmed(text);
  if (const auto number = lone_number(text)) return NumberAndUnit{*number, {}};
  const std::size_t end = std::min(text.find_first_not_of("0123456789+-.,"), text.size());
  const auto number = lone_number(text.substr(0, end));
  const std::string_view unit = trimmed(text.substr(end));
  if (!number || !is_unit(unit)) return std::nullopt;
  return NumberAndUnit{*number, unit};
}

bool is_unit(std::string_view text) {
  const std::string upper = upper_case(text);
  const bool is_not_finite = upper.starts_with("NAN") || upper.starts_with("INF");
  return !text.empty() && !is_not_finite && std::ranges::all_of(text, [](char c) {
    const bool is_letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
    return is_letter || is_blank(c) || std::string_view("%/.()[]").find(c) != std::string_view::npos;
  });
}

double number_on_line(const Source& source, std::string_view line, std::string_view name, double instead,
                      Problems& problems, Problems& warnings) {
  const auto number = number_and_unit(line);
  const bool is_usable = number && std::abs(number->value) <= k_largest_number;
  if (!is_usable) {
    const std::string_view fault = number ? "is out of range" : "is not a number";
    problems.push_back({source.place(line), fmt::format("{} {} {}", name, as_written(line), fault), ""});
    return instead;
  }
  if (!number->unit.empty()) {
    warnings.push_back({source.place(line),
                        fmt::format("{} {}: the text after the number is not used", name, as_written(line)),
                        "write the number alone"});
  }
  return number->value;
}

std::string_view take_word(std::string_view& rest) {
  const std::string_view word = rest.substr(0, std::ranges::find_if(rest, is_blank) - rest.begin());
  rest = trimmed(rest.substr(word.size()));
  return word;
}

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
