#include "lm63_keywords.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <set>

#include "evenlit/base/utf8.hpp"

namespace evenlit {
namespace {

constexpr std::array<std::string_view, 23> k_known_keywords = {
    "TEST",    "TESTLAB",    "ISSUEDATE",     "MANUFAC",      "LUMCAT",      "LUMINAIRE", "LAMPCAT",      "LAMP",
    "BALLAST", "BALLASTCAT", "TESTDATE",      "DATE",         "MAINTCAT",    "FLASHAREA", "DISTRIBUTION", "OTHER",
    "SEARCH",  "NEARFIELD",  "COLORCONSTANT", "LAMPPOSITION", "FILEGENINFO", "BLOCK",     "ENDBLOCK"};

/// Keywords that a file may hold any number of times.
bool may_repeat(std::string_view keyword) {
  return keyword == "OTHER" || keyword == "SEARCH" || keyword == "BLOCK" || keyword == "ENDBLOCK";
}

std::vector<std::string_view> required_keywords(Lm63Version version) {
  switch (version) {
    case Lm63Version::v1991:
      return {"TEST", "MANUFAC"};
    case Lm63Version::v2002:
    case Lm63Version::v2019:
      return {"TEST", "TESTLAB", "ISSUEDATE", "MANUFAC"};
    default:
      return {};
  }
}

/// Reads line after line and keeps what deviates, to report each kind once.
class KeywordReader {
 public:
  explicit KeywordReader(const Source& source) : source_(source) {}

  void read(std::string_view line) {
    const std::string_view text = trimmed(line);
    if (text.empty()) return;
    if (!is_ascii(text)) (is_utf8(text) ? beyond_ascii_ : not_utf8_).note(source_, text);
    if (!is_keyword_line(text)) {
      free_text_.note(source_, text);
      keep("", text);
      return;
    }
    const std::size_t close = text.find(']');
    if (close == text.npos) {
      unclosed_.note(source_, text);
      keep("", text);
      return;
    }
    if (!line.starts_with('[')) indented_.note(source_, text);
    read_keyword(text.substr(0, close + 1), trimmed(text.substr(close + 1)));
  }

  void report(Problems& warnings, bool free_text_is_usual) const {
    beyond_ascii_.report(warnings, "text beyond ASCII, kept");
    not_utf8_.report(warnings, "text that is not UTF-8, read as Windows-1252");
    if (!free_text_is_usual)
      free_text_.report(warnings, "line without a keyword, kept as text", "begin it with [OTHER]");
    unclosed_.report(warnings, "keyword without a closing bracket, kept as text", "write ] after the keyword");
    indented_.report(warnings, "keyword does not begin its line", "take out the blanks before [");
    lower_case_.report(warnings, "keyword in lower case", "write keywords in upper case");
    leading_more_.report(warnings, "[MORE] follows no keyword, kept as text");
    unknown_.report(warnings, "keyword unknown to LM-63, kept", "begin the names of your own keywords with _");
    repeated_.report(warnings, "keyword occurs again; all are kept, the first counts");
    near_field_.report(warnings, "[NEARFIELD] data are used as if they were far-field");
  }

  bool has(std::string_view keyword) const { return seen_.contains(std::string(keyword)); }
  Keywords take() { return std::move(keywords_); }

 private:
  void read_keyword(std::string_view bracketed, std::string_view value) {
    const std::string_view written = trimmed(bracketed.substr(1, bracketed.size() - 2));
    const std::string keyword = upper_case(written);
    if (keyword != written) lower_case_.note(source_, bracketed);
    if (keyword == "MORE") {
      if (keywords_.empty()) {
        leading_more_.note(source_, bracketed);
        keep("", value);
      } else {
        keywords_.back().second += ' ' + utf8_text(value);
      }
      return;
    }
    if (!is_known_keyword(keyword)) unknown_.note(source_, bracketed);
    if (keyword == "NEARFIELD") near_field_.note(source_, bracketed);
    if (!seen_.insert(keyword).second && !may_repeat(keyword)) repeated_.note(source_, bracketed);
    keep(keyword, value);
  }

  void keep(std::string_view keyword, std::string_view value) {
    keywords_.emplace_back(utf8_text(keyword), utf8_text(value));
  }

  const Source& source_;
  Keywords keywords_;
  std::set<std::string> seen_;
  Recurring beyond_ascii_, not_utf8_, free_text_, unclosed_, indented_, lower_case_, leading_more_, unknown_, repeated_,
      near_field_;
};

}  // namespace

bool is_known_keyword(std::string_view keyword) {
  return keyword.starts_with('_') || std::ranges::find(k_known_keywords, keyword) != k_known_keywords.end();
}

bool is_keyword_line(std::string_view line) { return trimmed(line).starts_with('['); }

Keywords read_keywords(const Source& source, std::span<const std::string_view> lines, Lm63Version version,
                       Problems& warnings) {
  KeywordReader reader(source);
  for (const std::string_view line : lines) reader.read(line);
  reader.report(warnings, version == Lm63Version::v1986 && std::ranges::none_of(lines, is_keyword_line));

  auto missing = required_keywords(version);
  std::erase_if(missing, [&](std::string_view keyword) { return reader.has(keyword); });
  if (!missing.empty()) {
    warnings.push_back({source.whole(),
                        fmt::format("no [{}], which {} requires", fmt::join(missing, "], no ["), name_of(version)),
                        ""});
  }
  return reader.take();
}

}  // namespace evenlit
