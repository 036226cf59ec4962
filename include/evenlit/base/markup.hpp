#pragma once

#include <string>
#include <string_view>

namespace evenlit {

/// Any text as XML and HTML may hold it, in an element or between the double quotes of an attribute: what would be
/// markup is written as a character reference; control characters, noncharacters and bytes that are not UTF-8 show as
/// `?`.
///
/// @source XML 1.0 (fifth edition), 2.2; Unicode 15.0, 23.7, noncharacters
std::string markup_text(std::string_view text);

/// Bytes as digits of base 64, padded.
///
/// @source RFC 4648, 4
std::string base64(std::string bytes);

}  // namespace evenlit
