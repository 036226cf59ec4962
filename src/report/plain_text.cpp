#include "evenlit/report/plain_text.hpp"

#include <algorithm>

#include "evenlit/base/utf8.hpp"

namespace evenlit {
namespace {

bool is_control(char32_t c) {
  const bool ascii = c < 0x20 || c == 0x7F;
  const bool c1 = c >= 0x80 && c < 0xA0;
  const bool line_or_direction =
      c == 0x61C || c == 0x200E || c == 0x200F || (c >= 0x2028 && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
  return ascii || c1 || line_or_direction;
}

}  // namespace

std::string printable(std::string_view text) {
  std::string shown;
  while (!text.empty()) {
    const CodePoint point = first_code_point(text);
    const auto bytes = static_cast<std::size_t>(point.bytes);
    shown += !point.is_valid || is_control(point.value) ? "?" : text.substr(0, bytes);
    text.remove_prefix(bytes);
  }
  return shown;
}

std::string shortened(std::string_view text, int width) {
  if (code_points(text) <= width) return std::string(text);
  std::string_view rest = text;
  for (int i = 1; i < width; ++i) rest.remove_prefix(static_cast<std::size_t>(first_code_point(rest).bytes));
  return std::string(text.substr(0, text.size() - rest.size())) + "…";
}

std::string filled(std::string_view text, int width, int indent) {
  std::string lines;
  int column = 0;
  bool line_is_empty = true;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (word.empty()) continue;
    const int length = code_points(word);
    if (!line_is_empty && column + 1 + length > width) {
      lines += '\n' + std::string(static_cast<std::size_t>(indent), ' ');
      column = indent;
      line_is_empty = true;
    }
    if (!line_is_empty) lines += ' ';
    column += length + (line_is_empty ? 0 : 1);
    lines += word;
    line_is_empty = false;
  }
  return lines + '\n';
}

}  // namespace evenlit
