#include "eulumdat_lines.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "evenlit/base/number.hpp"

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
  const std::string_view word(rest.begin(), std::ranges::find_if(rest, is_blank));
  rest = trimmed(rest.substr(word.size()));
  return word;
}

}  // namespace evenlit
