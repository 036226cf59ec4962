#include "evenlit/base/result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "evenlit/base/utf8.hpp"

namespace evenlit {
namespace {

constexpr int k_widest_source_line = 120;
constexpr int k_shown_before_place = 60;

/// C0 and C1 controls, and the marks that reorder or break a line (Unicode 15.0, Bidi_Control and Zl, Zp).
bool moves_cursor(char32_t c) {
  return c < 0x20 || (c >= 0x7f && c < 0xa0) || c == 0x61c || c == 0x200e || c == 0x200f ||
         (c >= 0x2028 && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069);
}

std::string harmless(std::string_view text) {
  std::string shown;
  while (!text.empty()) {
    const CodePoint point = first_code_point(text);
    const auto bytes = static_cast<std::size_t>(point.bytes);
    if (point.value == U'\t') {
      shown += ' ';
    } else if (!point.is_valid || moves_cursor(point.value)) {
      shown += '?';
    } else {
      shown += text.substr(0, bytes);
    }
    text.remove_prefix(bytes);
  }
  return shown;
}

std::string_view line_of(std::string_view source, int line) {
  for (; line > 1; --line) {
    const auto end = source.find('\n');
    if (end == std::string_view::npos) return {};
    source.remove_prefix(end + 1);
  }
  auto text = source.substr(0, source.find('\n'));
  if (text.ends_with('\r')) text.remove_suffix(1);
  return text;
}

/// The part of `text` from code point `start`, at most `count` of them.
std::string_view middle(std::string_view text, int start, int count) {
  const auto skip = [](std::string_view rest, int points) {
    for (; points > 0 && !rest.empty(); --points) {
      rest.remove_prefix(static_cast<std::size_t>(first_code_point(rest).bytes));
    }
    return rest;
  };
  const auto from_start = skip(text, start);
  return from_start.substr(0, from_start.size() - skip(from_start, count).size());
}

/// The source line, or the part of a very long one around the place, with the place underlined.
std::string underlined(const Place& place, std::string_view source) {
  const auto line = line_of(source, place.line);
  const int length = code_points(line);
  if (length == 0 || place.column < 1 || place.column > length + 1) return {};
  const int skipped = length > k_widest_source_line ? std::max(0, place.column - 1 - k_shown_before_place) : 0;
  const auto shown = middle(line, skipped, k_widest_source_line);
  const int before = place.column - 1 - skipped;
  const int width = std::clamp(place.width, 1, std::max(1, code_points(shown) - before));
  return fmt::format("{:>5} | {}\n      | {}^{}\n", place.line, harmless(shown), std::string(before, ' '),
                     std::string(width - 1, '~'));
}

}  // namespace

Place whole_file(std::string_view name) {
  Place place;
  place.file = name;
  return place;
}

tl::unexpected<Problems> failure(Place place, std::string what, std::string hint) {
  return tl::unexpected(Problems{Problem{std::move(place), std::move(what), std::move(hint)}});
}

std::string text_of(const Problem& problem, std::string_view source) {
  const auto& place = problem.place;
  std::string text = harmless(place.file);
  if (place.line > 0) text += fmt::format(":{}", place.line);
  if (place.line > 0 && place.column > 0) text += fmt::format(":{}", place.column);
  text += fmt::format(": {}\n", harmless(problem.what));
  if (place.line > 0) text += underlined(place, source);
  if (!problem.hint.empty()) text += fmt::format("hint: {}\n", harmless(problem.hint));
  return text;
}

std::string text_of(const Problems& problems, std::string_view source) {
  std::string text;
  for (const auto& problem : problems) text += text_of(problem, source);
  return text;
}

}  // namespace evenlit
