#include <algorithm>
#include <cmath>

#include "eulumdat_header.hpp"
#include "eulumdat_lines.hpp"
#include "evenlit/photometry/eulumdat.hpp"
#include "lm63_text.hpp"
#include "text_body.hpp"

namespace evenlit {
namespace {

using Lines = std::vector<std::string_view>;

bool has_tilt_line(std::string_view text) {
  constexpr std::size_t k_most_lines = 10'000;
  const Lines lines = taken_lines(text, k_most_lines);
  return std::ranges::any_of(lines, is_tilt_line);
}

bool is_integer(std::string_view line, int least, int most) {
  const auto number = lone_number(line);
  return number && *number >= least && *number <= most && *number == std::round(*number);
}

/// Whether type, symmetry and number of C planes stand on the lines from `first` on.
bool has_codes(const Lines& lines, std::size_t first) {
  return lines.size() > first + 2 && is_integer(lines[first], 0, 3) && is_integer(lines[first + 1], 0, 4) &&
         is_integer(lines[first + 2], 1, 1'000'000'000);
}

bool is_number(std::string_view line) { return lone_number(line).has_value(); }

/// Whether the head of the file is laid out as it should, with up to two of the six numbers after the first line
/// damaged, or as if lines had been put in or left out above them.
bool has_damaged_header(const Lines& lines) {
  constexpr std::size_t k_numbers = 6;  ///< type, symmetry, and count and step of both angles
  constexpr std::size_t k_most_shift = 3;
  if (lines.size() < k_eulumdat_header_lines) return false;
  for (std::size_t first = 0; first <= k_most_shift; ++first) {
    const auto begin = lines.begin() + static_cast<std::ptrdiff_t>(first);
    const auto numbers = std::count_if(begin, begin + k_numbers, is_number);
    const bool ends_in_text = !std::all_of(begin + k_numbers, begin + k_numbers + 5, is_number);
    const bool begins_in_text = first == 0 || !is_number(lines[0]);
    const bool is_in_place = first == 1 && numbers >= 4;
    const bool is_shifted = first != 1 && numbers == k_numbers && has_codes(lines, first);
    if (ends_in_text && begins_in_text && (is_in_place || is_shifted)) return true;
  }
  return false;
}

}  // namespace

bool is_eulumdat(std::string_view bytes) {
  const auto body = text_body(Source(bytes, ""));
  if (!body || has_tilt_line(*body)) return false;
  std::string_view rest = *body;
  const Lines lines = taken_lines(rest, k_eulumdat_header_lines);
  return has_codes(lines, 1) || has_damaged_header(lines);
}

}  // namespace evenlit
