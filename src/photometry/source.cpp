#include "source.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "evenlit/base/utf8.hpp"

namespace evenlit {
namespace {

/// Windows-1252 0x80...0x9F; its five unassigned bytes become the replacement character.
constexpr std::array<char16_t, 32> k_windows_1252 = {0x20AC, 0xFFFD, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
                                                     0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0xFFFD, 0x017D, 0xFFFD,
                                                     0xFFFD, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
                                                     0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0xFFFD, 0x017E, 0x0178};

void append_utf8(std::string& text, char16_t code) {
  if (code < 0x80) {
    text += static_cast<char>(code);
  } else if (code < 0x800) {
    text += static_cast<char>(0xC0 | (code >> 6));
    text += static_cast<char>(0x80 | (code & 0x3F));
  } else {
    text += static_cast<char>(0xE0 | (code >> 12));
    text += static_cast<char>(0x80 | ((code >> 6) & 0x3F));
    text += static_cast<char>(0x80 | (code & 0x3F));
  }
}

std::string from_windows_1252(std::string_view bytes) {
  std::string text;
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    append_utf8(text, byte >= 0x80 && byte < 0xA0 ? k_windows_1252[byte - 0x80] : char16_t{byte});
  }
  return text;
}

}  // namespace

Place Source::place(std::size_t offset, std::size_t size) const {
  Place place = whole();
  std::string_view rest = bytes_.substr(0, offset);
  std::string_view line;
  do {
    ++place.line;
    line = take_line(rest);
  } while (!rest.empty());
  const bool at_line_start = offset > 0 && (bytes_[offset - 1] == '\n' || bytes_[offset - 1] == '\r');
  if (at_line_start) {
    ++place.line;
    line = {};
  }
  place.column = code_points(line) + 1;
  place.width = std::max(1, code_points(bytes_.substr(offset, size)));
  return place;
}

std::string_view take_line(std::string_view& rest) {
  const std::size_t end = std::min(rest.find_first_of("\r\n"), rest.size());
  const std::string_view line = rest.substr(0, end);
  const std::size_t end_size = rest.substr(end).starts_with("\r\n") ? 2 : 1;
  rest.remove_prefix(std::min(rest.size(), end + end_size));
  return line;
}

bool is_blank(char c) { return c == ' ' || (c >= '\t' && c <= '\r'); }

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
  return text;
}

std::string upper_case(std::string_view text) {
  std::string upper(text);
  std::ranges::transform(upper, upper.begin(), [](char c) { return c >= 'a' && c <= 'z' ? char(c - 'a' + 'A') : c; });
  return upper;
}

bool is_ascii(std::string_view text) {
  return std::ranges::all_of(text, [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

void sort_by_place(Problems& problems) {
  std::ranges::stable_sort(problems, {}, [](const Problem& p) { return std::pair(p.place.line, p.place.column); });
}

std::string utf8_text(std::string_view bytes) { return is_utf8(bytes) ? std::string(bytes) : from_windows_1252(bytes); }

std::string as_written(std::string_view part) {
  constexpr int k_shown = 40;
  const std::string text = utf8_text(part);
  std::string_view rest = text;
  for (int shown = 0; shown < k_shown && !rest.empty(); ++shown) {
    rest.remove_prefix(static_cast<std::size_t>(first_code_point(rest).bytes));
  }
  return fmt::format("\"{}{}\"", text.substr(0, text.size() - rest.size()), rest.empty() ? "" : "...");
}

void Recurring::note(const Source& source, std::string_view part) {
  if (!first_) first_ = source.place(part);
  ++count_;
}

void Recurring::report(Problems& to, std::string what, std::string hint) const {
  if (!first_) return;
  if (count_ > 1) what += fmt::format(" ({} times)", count_);
  to.push_back({*first_, std::move(what), std::move(hint)});
}

}  // namespace evenlit
