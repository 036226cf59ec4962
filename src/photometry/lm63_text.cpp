#include "lm63_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "text_body.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_text_lines = 10'000;  ///< before TILT=
constexpr std::size_t k_version_lines = 10;        ///< in which an identification line is looked for

/// Upper case without blanks.
std::string squeezed(std::string_view line) {
  std::string text = upper_case(line);
  std::erase_if(text, is_blank);
  return text;
}

tl::unexpected<Problems> no_tilt_line(const Source& source, std::span<const std::string_view> lines) {
  if (lines.size() == k_most_text_lines) {
    return failure(source.whole(), fmt::format("no TILT= line in the first {} lines", k_most_text_lines),
                   "not an LM-63 file, or a damaged one");
  }
  return failure(source.whole(), "no TILT= line", "not an LM-63 file, or a damaged one");
}

/// What stands after TILT=.
std::string_view tilt_value(std::string_view line) { return trimmed(line.substr(line.find_first_of("=:") + 1)); }

std::string_view first_word(std::string_view text) {
  const auto ends_word = [](char c) { return is_blank(c) || c == ',' || c == ';' || c == '('; };
  return {text.begin(), std::ranges::find_if(text, ends_word)};
}

Result<Tilt> read_tilt_line(const Source& source, std::string_view line, Lm63Version version, Problems& warnings) {
  line = trimmed(line);
  const std::string_view value = tilt_value(line);
  const std::string name = upper_case(first_word(value));
  if (value.empty()) return failure(source.place(line), "TILT= names nothing", "write TILT=NONE or TILT=INCLUDE");
  if (name != "NONE" && name != "INCLUDE") {
    if (version == Lm63Version::v2019) {
      warnings.push_back({source.place(value), "LM-63-2019 has no separate tilt files", "write TILT=INCLUDE"});
    }
    return Tilt::separate;
  }
  if (line != "TILT=" + name) {
    warnings.push_back({source.place(line), fmt::format("{} read as TILT={}", as_written(line), name), ""});
  }
  return name == "NONE" ? Tilt::none : Tilt::included;
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

bool is_tilt_line(std::string_view line) {
  const std::string text = squeezed(line);
  return text.starts_with("TILT=") || text.starts_with("TILT:");
}

Result<Lm63Text> read_lm63_text(const Source& source, Problems& warnings) {
  const auto body = text_body(source);
  if (!body) return tl::unexpected(body.error());

  std::vector<std::string_view> lines;
  std::string_view rest = *body;
  std::string_view tilt_line;
  while (tilt_line.empty()) {
    if (rest.empty() || lines.size() == k_most_text_lines) return no_tilt_line(source, lines);
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
  const std::string_view tilt_file = *tilt == Tilt::separate ? tilt_value(tilt_line) : std::string_view{};
  return Lm63Text{version, std::move(keywords), *tilt, tilt_file, rest};
}

}  // namespace evenlit
