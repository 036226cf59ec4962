#include "lm63_version.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>

namespace evenlit {
namespace {

struct KnownVersion {
  Lm63Version version;
  int year;
  std::string_view name;
  std::string_view line;  ///< empty: this version has none
};

constexpr std::array<KnownVersion, 5> k_versions = {{
    {Lm63Version::v1986, 1986, "LM-63-1986", ""},
    {Lm63Version::v1991, 1991, "LM-63-1991", "IESNA91"},
    {Lm63Version::v1995, 1995, "LM-63-1995", "IESNA:LM-63-1995"},
    {Lm63Version::v2002, 2002, "LM-63-2002", "IESNA:LM-63-2002"},
    {Lm63Version::v2019, 2019, "LM-63-2019", "IES:LM-63-2019"},
}};

/// Letters and digits of a line, in upper case.
std::string letters_and_digits(std::string_view line) {
  std::string key = upper_case(line);
  std::erase_if(key, [](char c) { return !is_digit(c) && !(c >= 'A' && c <= 'Z'); });
  return key;
}

/// The digits that follow the words of an identification line; empty where the line is no such line.
std::optional<std::string> year_digits(const std::string& key) {
  for (const std::string_view words : {"IESNALM63", "IESLM63", "IESNA"}) {
    if (!key.starts_with(words)) continue;
    const auto begin = key.begin() + std::ssize(words);
    const auto end = std::find_if_not(begin, key.end(), is_digit);
    if (words == "IESNA" && (begin == end || end != key.end())) return std::nullopt;
    return std::string(begin, end);
  }
  return std::nullopt;
}

/// Two or four digits as a year; without either, the year of the version that is used most.
int year_from(const std::string& digits) {
  constexpr int k_default = 2002;
  if (digits.size() != 2 && digits.size() != 4) return k_default;
  const int number = std::atoi(digits.c_str());
  if (digits.size() == 4) return number;
  return number < 50 ? 2000 + number : 1900 + number;
}

const KnownVersion& nearest_version(int year) {
  return *std::ranges::min_element(k_versions, {}, [year](const KnownVersion& v) { return std::abs(v.year - year); });
}

}  // namespace

std::string_view name_of(Lm63Version version) { return k_versions[static_cast<std::size_t>(version)].name; }

std::optional<Lm63Version> identified_version(const Source& source, std::string_view line, Problems& warnings) {
  line = trimmed(line);
  const std::string key = letters_and_digits(line);
  const auto digits = year_digits(key);
  if (!digits) return std::nullopt;

  const KnownVersion& known = nearest_version(year_from(*digits));
  if (line == known.line) return known.version;
  const bool only_spelling = !known.line.empty() && key == letters_and_digits(known.line);
  warnings.push_back({source.place(line),
                      only_spelling
                          ? fmt::format("version line {} is not written as in {}", as_written(line), known.name)
                          : fmt::format("unknown version line {}, read as {}", as_written(line), known.name),
                      known.line.empty() ? "" : fmt::format("write {}", known.line)});
  return known.version;
}

}  // namespace evenlit
