#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "evenlit/base/result.hpp"

namespace evenlit {

struct TomlValue;
struct TomlEntry;

using TomlArray = std::vector<TomlValue>;

/// Keys and values in the order of the file.
struct TomlTable {
  std::vector<TomlEntry> entries;
};

/// A date or a time of day, which no job uses.
struct TomlDate {};

struct TomlValue {
  Place place;  ///< of the value; of a table its header or opening brace
  std::variant<TomlDate, bool, double, std::string, TomlArray, TomlTable> content;
};

struct TomlEntry {
  std::string key;
  Place key_place;
  TomlValue value;
};

/// Parses TOML. The value returned is the file's top table.
///
/// @errors one problem: no UTF-8 text, more than 1 MiB, nothing in it, nested too deeply, or the first error of syntax
Result<TomlValue> toml_document(std::string_view bytes, std::string_view name);

/// The keys that stand between dots, without their quotes: `a . "b.c"` has two.
///
/// @param written a key of a file that `toml_document` reads
std::vector<std::string> toml_keys(std::string_view written);

}  // namespace evenlit
