#include "evenlit/base/markup.hpp"

#include <algorithm>
#include <boost/archive/iterators/base64_from_binary.hpp>
#include <boost/archive/iterators/transform_width.hpp>

#include "evenlit/base/utf8.hpp"

namespace evenlit {
namespace {

bool is_character(const CodePoint& point) {
  const char32_t c = point.value;
  const bool is_control = c < 0x20 || (c >= 0x7F && c < 0xA0);
  const bool is_noncharacter = (c >= 0xFDD0 && c <= 0xFDEF) || (c & 0xFFFE) == 0xFFFE;
  return point.is_valid && !is_control && !is_noncharacter;
}

}  // namespace

std::string markup_text(std::string_view text) {
  std::string markup;
  while (!text.empty()) {
    const CodePoint point = first_code_point(text);
    const std::string_view letter = text.substr(0, static_cast<std::size_t>(point.bytes));
    text.remove_prefix(letter.size());
    if (!is_character(point)) {
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

std::string base64(std::string bytes) {
  using namespace boost::archive::iterators;
  using Digits = base64_from_binary<transform_width<std::string::const_iterator, 6, 8>>;
  const std::size_t missing = (3 - bytes.size() % 3) % 3;
  bytes.append(missing, '\0');  // whole groups of three, as the iterators ask for
  std::string digits(Digits(bytes.cbegin()), Digits(bytes.cend()));
  std::fill(digits.end() - static_cast<std::ptrdiff_t>(missing), digits.end(), '=');
  return digits;
}

}  // namespace evenlit
