#pragma once

#include <string>
#include <string_view>

namespace evenlit {

/// A TOML basic string.
std::string string_text(std::string_view text);

/// A key, in quotes where it needs them.
std::string key_text(std::string_view key);

/// `key = value` on a line of its own.
std::string line(std::string_view key, std::string_view value);

/// `[ item, item ]`; `text` writes an item.
template <class List, class Text>
std::string list_text(const List& list, const Text& text) {
  std::string items;
  for (const auto& item : list) items += (items.empty() ? "" : ", ") + text(item);
  return "[" + items + "]";
}

}  // namespace evenlit
