#include "toml_json.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "evenlit/base/number.hpp"
#include "toml_text.hpp"

namespace evenlit {
namespace {

constexpr int k_most_nested = 8;  // as in `toml_parser.hpp`

std::optional<TextProblem> unwritable(const Json& value, int depth) {
  if (value.is_null()) return TextProblem{"null is no value", R"(to take something away write {"remove": [...]})"};
  if (!value.is_structured()) return std::nullopt;
  if (depth == k_most_nested) return TextProblem{"the value is nested too deeply", "no table of a job is so deep"};
  for (const Json& part : value) {
    if (auto problem = unwritable(part, depth + 1)) return problem;
  }
  return std::nullopt;
}

}  // namespace

std::optional<TextProblem> unwritable(const Json& value) { return unwritable(value, 0); }

std::string toml_value_text(const Json& value) {
  if (const auto* text = value.get_ptr<const std::string*>()) return string_text(*text);
  if (value.is_boolean()) return value.get<bool>() ? "true" : "false";
  if (value.is_array()) return list_text(value, toml_value_text);
  if (!value.is_object()) return shortest_text(value.get<double>());
  std::string pairs;
  for (const auto& [key, part] : value.items()) {
    pairs += fmt::format("{} {} = {}", pairs.empty() ? "" : ",", key_text(key), toml_value_text(part));
  }
  return pairs.empty() ? "{}" : "{" + pairs + " }";
}

bool is_same(const TomlValue& written, const Json& value) {
  if (const auto* number = std::get_if<double>(&written.content)) {
    return value.is_number() && value.get<double>() == *number;
  }
  if (const auto* text = std::get_if<std::string>(&written.content)) return value == *text;
  if (const auto* is = std::get_if<bool>(&written.content)) return value.is_boolean() && value.get<bool>() == *is;
  if (const auto* array = std::get_if<TomlArray>(&written.content)) {
    return value.is_array() && std::ranges::equal(*array, value, is_same);
  }
  const auto* table = std::get_if<TomlTable>(&written.content);
  return table != nullptr && value.is_object() && value.size() == table->entries.size() &&
         std::ranges::all_of(table->entries, [&](const TomlEntry& entry) {
           const auto other = value.find(entry.key);
           return other != value.end() && is_same(entry.value, *other);
         });
}

}  // namespace evenlit
