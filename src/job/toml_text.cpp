#include "toml_text.hpp"

#include <fmt/format.h>

namespace evenlit {

std::string string_text(std::string_view text) {
  std::string quoted = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      quoted += '\\';
      quoted += c;
    } else if (byte < 0x20 || byte == 0x7f) {
      quoted += fmt::format("\\u{:04x}", byte);
    } else {
      quoted += c;
    }
  }
  return quoted + '"';
}

std::string key_text(std::string_view key) {
  constexpr std::string_view k_bare = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  const bool is_bare = !key.empty() && key.find_first_not_of(k_bare) == std::string_view::npos;
  return is_bare ? std::string(key) : string_text(key);
}

std::string line(std::string_view key, std::string_view value) { return fmt::format("{} = {}\n", key, value); }

}  // namespace evenlit
