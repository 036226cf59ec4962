#include "evenlit/base/markup.hpp"

#include "evenlit/base/utf8.hpp"

namespace evenlit {
namespace {

// XML has no way to write control characters, and U+FFFE and U+FFFF are no characters at all.
bool is_xml_character(const CodePoint& point) {
  const bool is_control = point.value < 0x20 || (point.value >= 0x7F && point.value < 0xA0);
  return point.is_valid && !is_control && point.value != 0xFFFE && point.value != 0xFFFF;
}

}  // namespace

std::string markup_text(std::string_view text) {
  std::string markup;
  while (!text.empty()) {
    const CodePoint point = first_code_point(text);
    const std::string_view letter = text.substr(0, static_cast<std::size_t>(point.bytes));
    text.remove_prefix(letter.size());
    if (!is_xml_character(point)) {
      markup += '?';
    } else if (letter == "&") {
      markup += "&amp;";
    } else if (letter == "<") {
      markup += "&lt;";
    } else if (letter == ">") {
      markup += "&gt;";
    } else if (letter == "\"") {
      markup += "&quot;";
    } else {
      markup += letter;
    }
  }
  return markup;
}

}  // namespace evenlit
