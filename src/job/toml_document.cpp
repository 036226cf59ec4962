#include "toml_document.hpp"

#include <algorithm>
#include <optional>

#include "evenlit/base/utf8.hpp"
#include "toml_parser.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_bytes = std::size_t{1} << 20;
constexpr int k_most_dots_in_line = 100;

Place place_of(const toml::source_region& region, std::string_view name) {
  Place place = whole_file(name);
  place.line = static_cast<int>(region.begin.line);
  place.column = static_cast<int>(region.begin.column);
  const bool is_one_line = region.end.line == region.begin.line && region.end.column > region.begin.column;
  if (is_one_line) place.width = static_cast<int>(region.end.column - region.begin.column);
  return place;
}

TomlValue value_from(const toml::node& node, std::string_view name) {
  TomlValue value{.place = place_of(node.source(), name), .content = TomlDate{}};
  if (const auto* boolean = node.as_boolean()) {
    value.content = boolean->get();
  } else if (const auto* integer = node.as_integer()) {
    value.content = static_cast<double>(integer->get());
  } else if (const auto* number = node.as_floating_point()) {
    value.content = number->get();
  } else if (const auto* text = node.as_string()) {
    value.content = text->get();
  } else if (const auto* array = node.as_array()) {
    TomlArray elements;
    for (const auto& element : *array) elements.push_back(value_from(element, name));
    value.content = std::move(elements);
  } else if (const auto* table = node.as_table()) {
    TomlTable content;
    for (const auto& [key, element] : *table) {
      content.entries.push_back({std::string(key.str()), place_of(key.source(), name), value_from(element, name)});
    }
    std::sort(content.entries.begin(), content.entries.end(), [](const TomlEntry& a, const TomlEntry& b) {
      return std::pair(a.key_place.line, a.key_place.column) < std::pair(b.key_place.line, b.key_place.column);
    });
    value.content = std::move(content);
  }
  return value;
}

/// The first line with so many dots that its dotted keys could nest tables deeper than the stack is. (The parser
/// limits the nesting of brackets, not of keys.)
std::optional<int> line_with_too_many_dots(std::string_view bytes) {
  int line = 1;
  int dots = 0;
  for (const char c : bytes) {
    if (c == '\n') {
      ++line;
      dots = 0;
    } else if (c == '.' && ++dots > k_most_dots_in_line) {
      return line;
    }
  }
  return std::nullopt;
}

std::optional<Problem> unreadable(std::string_view bytes, std::string_view name) {
  Place place = whole_file(name);
  if (bytes.size() > k_most_bytes) return Problem{place, "the job file is larger than 1 MiB", "a job is one room"};
  if (!is_utf8(bytes) || bytes.find('\0') != std::string_view::npos) {
    return Problem{place, "the job file is not UTF-8 text", "save it as plain text in UTF-8"};
  }
  if (bytes.find_first_not_of(" \t\r\n") == std::string_view::npos) {
    return Problem{place, "the job file is empty", "scenes/README.md tells how to write one"};
  }
  if (const auto line = line_with_too_many_dots(bytes)) {
    place.line = *line;
    place.column = 1;
    return Problem{place, "this line has more than 100 dots", "break it into several lines"};
  }
  return std::nullopt;
}

}  // namespace

Result<TomlValue> toml_document(std::string_view bytes, std::string_view name) {
  if (auto problem = unreadable(bytes, name)) return tl::unexpected(Problems{std::move(*problem)});
  const auto parsed = toml::parse(bytes);
  if (!parsed) {
    const auto& error = parsed.error();
    constexpr std::string_view k_prefix = "Error while parsing ";
    auto what = error.description();
    if (what.starts_with(k_prefix)) what.remove_prefix(k_prefix.size());
    return failure(place_of(error.source(), name), "this is not TOML: " + std::string(what),
                   R"(a line is key = value; text stands in quotes, and inches in it are written in: "12ft 6in")");
  }
  return value_from(parsed.table(), name);
}

std::vector<std::string> toml_keys(std::string_view written) {
  const auto parsed = toml::parse(std::string(written) + " = 0");
  std::vector<std::string> keys;
  const toml::table* table = parsed ? &parsed.table() : nullptr;
  while (table != nullptr && !table->empty()) {
    const auto entry = table->begin();
    keys.emplace_back(entry->first.str());
    table = entry->second.as_table();
  }
  return keys;
}

}  // namespace evenlit
