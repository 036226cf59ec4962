#include "evenlit/photometry/eulumdat.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "eulumdat_checks.hpp"
#include "eulumdat_header.hpp"
#include "eulumdat_lamps.hpp"
#include "eulumdat_numbers.hpp"
#include "eulumdat_table.hpp"
#include "limits.hpp"
#include "lm63_tilt.hpp"
#include "text_body.hpp"

namespace evenlit {
namespace {

constexpr int k_direct_ratios = 10;

using Lines = std::vector<std::string_view>;

bool has_tilt_line(std::string_view text) {
  const Lines lines = taken_lines(text, k_most_lines_before_tilt);
  return std::ranges::any_of(lines, is_tilt_line);
}

bool is_integer(std::string_view line, double least, double most) {
  const auto number = lone_number(line);
  return number && *number >= least && *number <= most && *number == std::round(*number);
}

/// Whether type, symmetry and number of C planes stand on the lines from `first` on.
bool has_codes(const Lines& lines, std::size_t first) {
  return lines.size() > first + 2 && is_integer(lines[first], 0, 3) && is_integer(lines[first + 1], 0, 4) &&
         is_integer(lines[first + 2], 1, k_largest_number);
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

int leading_numbers_on(std::string_view line) {
  int numbers = 0;
  while (!line.empty() && lone_number(take_word(line))) ++numbers;
  return numbers;
}

/// Takes the lines off that say how much of the flux falls straight on the work plane: nothing here needs them.
void skip_direct_ratios(const Source& source, std::string_view& rest, Problems& warnings) {
  Recurring empty, crowded;
  for (int left = k_direct_ratios; left > 0 && !rest.empty();) {
    const std::string_view line = trimmed(take_line(rest));
    const int numbers = leading_numbers_on(line);
    if (line.empty()) empty.note(source, line);
    if (numbers > 1) crowded.note(source, line);
    left -= std::max(1, numbers);
  }
  empty.report(warnings, "direct ratio is missing; direct ratios are not used");
  crowded.report(warnings, "more than one direct ratio on a line", "write each on a line of its own");
}

/// @param lamp_set counted from 1
Result<PhotometricFile> read_file(const Source& source, int lamp_set, Problems& warnings) {
  const auto body = text_body(source);
  if (!body) return tl::unexpected(body.error());
  std::string_view rest = *body;
  auto header = decode_eulumdat_header(source, taken_lines(rest, k_eulumdat_header_lines), warnings);
  if (!header) return tl::unexpected(header.error());

  const auto sets = static_cast<int>(header->lamp_sets);
  if (lamp_set < 1 || lamp_set > sets) {
    return failure(source.place(header->line(l_lamp_sets)),
                   fmt::format("there is no lamp set {}: the file has {}", lamp_set, sets),
                   sets == 1 ? "ask for lamp set 1" : fmt::format("ask for a lamp set from 1 to {}", sets));
  }
  const auto chosen = static_cast<std::size_t>(lamp_set - 1);
  const auto lamp_lines = taken_lines(rest, header->lamp_sets * k_lines_per_lamp_set);
  if (lamp_lines.size() < header->lamp_sets * k_lines_per_lamp_set) {
    return failure(source.place(rest),
                   fmt::format("file ends within the lines of the lamp sets, six for each of {}", sets),
                   "get a complete copy of the file");
  }
  auto lamps = read_eulumdat_lamps(source, lamp_lines, chosen, warnings);
  if (!lamps) return tl::unexpected(lamps.error());
  skip_direct_ratios(source, rest, warnings);

  const EulumdatNumbers numbers(source, rest, most_numbers(*header));
  const auto layout = layout_of(source, *header, numbers, warnings);
  if (!layout) return tl::unexpected(layout.error());
  const auto planes = table_planes(source, *header, *layout, numbers, warnings);
  if (!planes) return tl::unexpected(planes.error());
  auto distribution = eulumdat_distribution(*header, *layout, *planes, numbers,
                                            header->candela_factor * lamps->lumens / 1000, warnings);
  if (!distribution) return tl::unexpected(distribution.error());
  numbers.report(layout->size(), warnings);
  if (planes->symmetry != header->symmetry) check_eulumdat_symmetry(source, *header, *distribution, warnings);
  check_eulumdat_flux(source, *header, *lamps, chosen, *distribution, warnings);

  PhotometricFile file{.format = "EULUMDAT", .keywords = std::move(header->keywords)};
  if (const auto& type = lamps->sets[chosen].type; !type.empty()) file.keywords.emplace_back("LAMP", type);
  file.lamp_sets = std::move(lamps->sets);
  file.lamp_set = chosen;
  file.opening = header->opening;
  file.housing = header->housing;
  file.distribution = std::move(*distribution);
  return file;
}

}  // namespace

bool is_eulumdat(std::string_view bytes) {
  const auto body = text_body(Source(bytes, ""));
  if (!body || has_tilt_line(*body)) return false;
  std::string_view rest = *body;
  const Lines lines = taken_lines(rest, k_eulumdat_header_lines);
  return has_codes(lines, 1) || has_damaged_header(lines);
}

Result<Noted<PhotometricFile>> read_eulumdat(std::string_view bytes, std::string_view name, int lamp_set) {
  const Source source(bytes, name);
  Problems warnings;
  auto file = read_file(source, lamp_set, warnings);
  if (!file) {
    sort_by_place(file.error());
    return tl::unexpected(file.error());
  }
  sort_by_place(warnings);
  return Noted<PhotometricFile>{std::move(*file), std::move(warnings)};
}

}  // namespace evenlit
