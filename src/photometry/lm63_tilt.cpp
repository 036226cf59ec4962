#include "lm63_tilt.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/base/number.hpp"
#include "limits.hpp"

namespace evenlit {
namespace {

constexpr double k_largest_factor = 10;

tl::unexpected<Problems> damaged(Place place, std::string_view how) {
  return failure(std::move(place), fmt::format("tilt data damaged: {}", how));
}

/// Upper case without blanks.
std::string squeezed(std::string_view line) {
  std::string text = upper_case(line);
  std::erase_if(text, is_blank);
  return text;
}

/// What stands after TILT=.
std::string_view tilt_value(std::string_view line) { return trimmed(line.substr(line.find_first_of("=:") + 1)); }

std::string_view first_word(std::string_view text) {
  const auto ends_word = [](char c) { return is_blank(c) || c == ',' || c == ';' || c == '('; };
  return text.substr(0, std::ranges::find_if(text, ends_word) - text.begin());
}

}  // namespace

bool is_tilt_line(std::string_view line) {
  const std::string text = squeezed(line);
  return text.starts_with("TILT=") || text.starts_with("TILT:");
}

Result<TiltLine> read_tilt_line(const Source& source, std::string_view line, Lm63Version version, Problems& warnings) {
  line = trimmed(line);
  const std::string_view value = tilt_value(line);
  const std::string name = upper_case(first_word(value));
  if (value.empty()) return failure(source.place(line), "TILT= names nothing", "write TILT=NONE or TILT=INCLUDE");
  if (name != "NONE" && name != "INCLUDE") {
    if (version == Lm63Version::v2019) {
      warnings.push_back({source.place(value), "LM-63-2019 has no separate tilt files", "write TILT=INCLUDE"});
    }
    return TiltLine{Tilt::separate, value};
  }
  if (line != "TILT=" + name) {
    warnings.push_back({source.place(line), fmt::format("{} read as TILT={}", as_written(line), name), ""});
  }
  return TiltLine{name == "NONE" ? Tilt::none : Tilt::included, {}};
}

Result<TiltData> read_tilt_data(NumberStream& stream, Problems& warnings) {
  const auto head = stream.read(2, "numbers before the tilt angles");
  if (!head) return tl::unexpected(head.error());
  const double geometry = head->values[0];
  const bool is_known = geometry == 1 || geometry == 2 || geometry == 3;
  if (!is_known) {
    warnings.push_back({stream.place(*head, 0),
                        fmt::format("lamp-to-luminaire geometry {} is unknown, read as 1", shortest_text(geometry)),
                        "write 1, 2 or 3"});
  }
  const double count = head->values[1];
  if (count < 1 || count > k_most_angles || count != std::floor(count)) {
    return damaged(stream.place(*head, 1), fmt::format("number of tilt angles {} is not an integer from 1 to {}",
                                                       shortest_text(count), shortest_text(k_most_angles)));
  }

  const auto angles = stream.read(static_cast<std::size_t>(count), "tilt angles");
  if (!angles) return tl::unexpected(angles.error());
  const auto unsorted = std::ranges::is_sorted_until(angles->values, std::less_equal<>{});
  if (unsorted != angles->values.end()) {
    return damaged(stream.place(*angles, static_cast<std::size_t>(unsorted - angles->values.begin())),
                   fmt::format("angle {} comes after {}", shortest_text(*unsorted), shortest_text(*(unsorted - 1))));
  }

  const auto factors = stream.read(static_cast<std::size_t>(count), "tilt factors");
  if (!factors) return tl::unexpected(factors.error());
  const auto wrong = std::ranges::find_if(factors->values, [](double f) { return f < 0 || f > k_largest_factor; });
  if (wrong != factors->values.end()) {
    return damaged(stream.place(*factors, static_cast<std::size_t>(wrong - factors->values.begin())),
                   fmt::format("factor {} is outside 0 to 10", shortest_text(*wrong)));
  }

  return TiltData{is_known ? static_cast<int>(geometry) : 1, angles->values, factors->values};
}

}  // namespace evenlit
