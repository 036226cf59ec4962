#include "lm63_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "evenlit/base/number.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_largest_file = std::size_t{64} << 20;  ///< bytes
constexpr std::size_t k_most_text_lines = 10'000;              ///< before TILT=
constexpr std::size_t k_version_lines = 10;                    ///< in which an identification line is looked for
constexpr std::string_view k_byte_order_mark = "\xEF\xBB\xBF";

bool is_utf16(std::string_view bytes) {
  if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF")) return true;
  const auto start = bytes.substr(0, 64);
  return std::ranges::count(start, '\0') > std::ssize(start) / 3;
}

/// The file without a byte-order mark and without the blanks, zero bytes and Ctrl-Z that DOS programs leave at the end.
Result<std::string_view> text_body(const Source& source) {
  std::string_view body = source.bytes();
  if (body.size() > k_largest_file) return failure(source.whole(), "file is larger than 64 MiB");
  if (is_utf16(body)) return failure(source.whole(), "file is UTF-16", "save it as plain ASCII text");
  if (body.starts_with(k_byte_order_mark)) body.remove_prefix(k_byte_order_mark.size());
  while (!body.empty() && (is_blank(body.back()) || body.back() == '\0' || body.back() == '\x1A'))
    body.remove_suffix(1);
  if (body.empty()) return failure(source.whole(), "file is empty");
  if (const std::size_t zero = body.find('\0'); zero != body.npos) {
    return failure(source.whole(),
                   fmt::format("not a text file: zero byte at offset {}", source.offset_of(body.substr(zero))));
  }
  return body;
}

/// Upper case without blanks.
std::string squeezed(std::string_view line) {
  std::string text = upper_case(line);
  std::erase_if(text, is_blank);
  return text;
}

/// Whether the lines begin as an EULUMDAT file does: a name, then type, symmetry and the number of C planes, each
/// alone on its line.
bool is_eulumdat(std::span<const std::string_view> lines) {
  const auto is_integer_within = [&](std::size_t line, double most) {
    const auto number = number_from_text(trimmed(lines[line]));
    return number && *number >= 0 && *number <= most && *number == static_cast<int>(*number);
  };
  return lines.size() > 3 && is_integer_within(1, 3) && is_integer_within(2, 4) && is_integer_within(3, 721);
}

tl::unexpected<Problems> no_tilt_line(const Source& source, std::span<const std::string_view> lines) {
  if (is_eulumdat(lines)) {
    return failure(source.whole(), "this is an EULUMDAT file, and EULUMDAT files are not read",
                   "get the luminaire's LM-63 file (.ies)");
  }
  if (lines.size() == k_most_text_lines) {
    return failure(source.whole(), fmt::format("no TILT= line in the first {} lines", k_most_text_lines),
                   "not an LM-63 file, or a damaged one");
  }
  return failure(source.whole(), "no TILT= line", "not an LM-63 file, or a damaged one");
}

/// The first word after TILT=, such as `NONE` or a file name.
std::string_view tilt_word(std::string_view line) {
  const std::string_view value = trimmed(line.substr(line.find_first_of("=:") + 1));
  const auto ends_word = [](char c) { return is_blank(c) || c == ',' || c == ';' || c == '('; };
  return {value.begin(), std::ranges::find_if(value, ends_word)};
}

Result<Tilt> read_tilt_line(const Source& source, std::string_view line, Problems& warnings) {
  line = trimmed(line);
  const std::string_view word = tilt_word(line);
  const std::string name = upper_case(word);
  if (name.empty()) return failure(source.place(line), "TILT= names nothing", "write TILT=NONE or TILT=INCLUDE");
  if (name != "NONE" && name != "INCLUDE") {
    return failure(source.place(word), fmt::format("tilt data stand in a file of their own, {}", as_written(word)),
                   "separate tilt files are not read; put the data in place with TILT=INCLUDE");
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
  const auto tilt = read_tilt_line(source, tilt_line, warnings);
  if (!tilt) return tl::unexpected(tilt.error());
  return Lm63Text{version, std::move(keywords), *tilt, rest};
}

}  // namespace evenlit
