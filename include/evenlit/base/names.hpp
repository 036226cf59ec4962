#pragma once

#include <span>
#include <string>
#include <string_view>

namespace evenlit {

/// The member of `known` that is closest to `name` by edit distance (Damerau-Levenshtein, case-insensitive), or empty
/// when none is close enough to be what was meant (more than a third of its letters differ).
std::string nearest_name(std::string_view name, std::span<const std::string_view> known);

/// The text between double quotes, for a message; of a long one the first 60 code points and three dots.
std::string quoted(std::string_view text);

}  // namespace evenlit
