#pragma once

#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "lm63_version.hpp"
#include "source.hpp"

namespace evenlit {

/// Keyword (without brackets, in upper case) and value, in file order; a line of free text has an empty keyword.
using Keywords = std::vector<std::pair<std::string, std::string>>;

/// The lines between the identification line and TILT=.
///
/// @source ANSI/IESNA LM-63-2002, label lines and keywords (read at second hand); LM-63-1995 for [MORE]
Keywords read_keywords(const Source& source, std::span<const std::string_view> lines, Lm63Version version,
                       Problems& warnings);

/// Whether a keyword is LM-63's own, or a user's with an underscore before it.
bool is_known_keyword(std::string_view keyword);

/// Whether a line begins, after blanks, with a bracket as keyword lines do.
bool is_keyword_line(std::string_view line);

}  // namespace evenlit
