#include "lm63_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "limits.hpp"
#include "text_body.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_version_lines = 10;  ///< in which an identification line is looked for

tl::unexpected<Problems> no_tilt_line(const Source& source, std::span<const std::string_view> lines) {
  if (lines.size() == k_most_lines_before_tilt) {
    return failure(source.whole(), fmt::format("no TILT= line in the first {} lines", k_most_lines_before_tilt),
                   "not an LM-63 file, or a damaged one");
  }
  return failure(source.whole(), "no TILT= line", "not an LM-63 file, or a damaged one");
}

/// The version, and the lines that are not its identification line.
Lm63Version take_version(const Source& source, std::vector<std::string_view>& lines, Problems& warnings) {
  const auto searched = lines.begin() + std::min(std::ssize(lines), std::ptrdiff_t{k_version_lines});
  for (auto line = lines.begin(); line != searched; ++line) {
    const auto version = identified_version(source, *line, warnings);
    if (!version) continue;
    const auto before = std::find_if(lines.begin(), line, [](auto earlier) { return !trimmed(earlier).empty(); });
    if (line != lines.begin()) {
      const bool blank = before == line;
      warnings.push_back({source.place(trimmed(*line)),
                          blank ? "blank lines before the version line" : "text before the version line", ""});
    }
    lines.erase(line);
    return *version;
  }
  const bool has_keywords = std::ranges::any_of(lines, is_keyword_line);
  const Lm63Version version = has_keywords ? Lm63Version::v1991 : Lm63Version::v1986;
  warnings.push_back({source.whole(), fmt::format("no LM-63 version line; read as {}", name_of(version)), ""});
  return version;
}

}  // namespace

Result<Lm63Text> read_lm63_text(const Source& source, Problems& warnings) {
  const auto body = text_body(source);
  if (!body) return tl::unexpected(body.error());

  std::vector<std::string_view> lines;
  std::string_view rest = *body;
  std::string_view tilt_line;
  while (tilt_line.empty()) {
    if (rest.empty() || lines.size() == k_most_lines_before_tilt) return no_tilt_line(source, lines);
    const std::string_view line = take_line(rest);
    if (is_tilt_line(line)) {
      tilt_line = line;
    } else {
      lines.push_back(line);
    }
  }

  const Lm63Version version = take_version(source, lines, warnings);
  Keywords keywords = read_keywords(source, lines, version, warnings);
  const auto tilt = read_tilt_line(source, tilt_line, version, warnings);
  if (!tilt) return tl::unexpected(tilt.error());
  return Lm63Text{version, std::move(keywords), *tilt, rest};
}

}  // namespace evenlit
