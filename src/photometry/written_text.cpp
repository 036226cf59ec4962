#include "written_text.hpp"

#include "evenlit/base/utf8.hpp"

namespace evenlit {
namespace {

/// Bytes of the first `count` code points, or of all.
std::size_t bytes_of_first(std::string_view text, std::size_t count) {
  std::size_t bytes = 0;
  for (; count > 0 && bytes < text.size(); --count) {
    bytes += static_cast<std::size_t>(first_code_point(text.substr(bytes)).bytes);
  }
  return bytes;
}

}  // namespace

std::vector<std::string> broken_lines(std::string_view text, std::size_t width) {
  std::vector<std::string> lines;
  while (true) {
    const std::size_t most = bytes_of_first(text, width);
    if (most == text.size()) break;
    const std::size_t blank = text.substr(0, most + 1).find_last_of(' ');
    const bool at_blank = blank != text.npos && blank > 0;
    const std::size_t end = at_blank ? blank : most;
    lines.emplace_back(text.substr(0, end));
    text.remove_prefix(at_blank ? end + 1 : end);
  }
  lines.emplace_back(text);
  return lines;
}

std::string filled_lines(const std::vector<std::string>& words, std::size_t width) {
  std::string text;
  std::size_t line = 0;
  for (const std::string& word : words) {
    if (line > 0) {
      const bool fits = line + 1 + word.size() <= width;
      text += fits ? " " : "\r\n";
      line = fits ? line + 1 : 0;
    }
    text += word;
    line += word.size();
  }
  return text + "\r\n";
}

}  // namespace evenlit
