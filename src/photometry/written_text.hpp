#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace evenlit {

/// Lines of at most `width` code points, broken at blanks where there are any.
std::vector<std::string> broken_lines(std::string_view text, std::size_t width);

/// The words on lines of at most `width` characters, blanks between them, each line ending in CR LF.
std::string filled_lines(const std::vector<std::string>& words, std::size_t width);

}  // namespace evenlit
