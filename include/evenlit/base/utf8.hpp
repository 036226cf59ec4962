#pragma once

#include <string_view>

namespace evenlit {

struct CodePoint {
  char32_t value = 0;
  int bytes = 1;         ///< that it takes in the text
  bool is_valid = true;  ///< false for a byte that is not part of well-formed UTF-8: `value` is 0, `bytes` 1
};

/// The first code point of a text that is not empty.
///
/// @source Unicode 15.0, table 3-7, "well-formed UTF-8 byte sequences"
CodePoint first_code_point(std::string_view text);

/// Whether the whole text is well-formed UTF-8.
bool is_utf8(std::string_view text);

/// Code points in the text; a byte that is not UTF-8 counts as one.
int code_points(std::string_view text);

}  // namespace evenlit
