#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace evenlit {

/// A key, or the zero-based index of an element.
using TomlStep = std::variant<std::string, std::size_t>;

/// From a file's top table to a value.
using TomlPath = std::vector<TomlStep>;

bool begins_with(const TomlPath& path, const TomlPath& prefix);

/// `path` with one step more.
TomlPath extended(TomlPath path, TomlStep step);

/// `cans[2].from.west`
std::string text_of(const TomlPath& path);

/// Bytes of a text.
struct TomlSpan {
  std::size_t begin = 0;
  std::size_t end = 0;  ///< behind the last
};

/// A part of a TOML file as it stands in its text.
struct TomlPart {
  enum class Kind {
    section,  ///< a header, or the file's top, and all up to the next header
    line,     ///< a key and its value right in a section
    pair,     ///< a key and its value in braces
    element   ///< of an array in brackets
  };

  Kind kind = Kind::section;
  TomlPath path;           ///< of the table or value
  TomlSpan written;        ///< a header with its brackets; from key to value; an element
  TomlSpan value;          ///< of all but sections: the value alone
  std::size_t holder = 0;  ///< index of the part in which it is written: of a line its section; of a section itself
  std::optional<std::size_t> comma = {};  ///< behind a pair or element
  bool is_in_braces = false;              ///< its value is a table in braces
  bool is_in_brackets = false;            ///< its value is an array in brackets
};

/// Every section and value of a TOML file in the order of its text; the first is the section at the file's top.
///
/// `toml_document` knows what the text means; this knows which bytes say so.
///
/// @param text that `toml_document` reads
std::vector<TomlPart> toml_layout(std::string_view text);

}  // namespace evenlit
