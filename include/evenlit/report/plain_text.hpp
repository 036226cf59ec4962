#pragma once

#include <string>
#include <string_view>

namespace evenlit {

/// Text from outside, safe to print: control characters, marks that turn the writing direction, and bytes that are not
/// UTF-8 show as `?`.
std::string printable(std::string_view text);

/// A text, or as much of its beginning as fits into so many code points with an ellipsis.
std::string shortened(std::string_view text, int width);

/// Words filled into lines of at most `width` code points, each line ended by a line feed; a longer word has its own
/// line. Lines after the first begin with `indent` spaces.
std::string filled(std::string_view text, int width, int indent = 0);

}  // namespace evenlit
