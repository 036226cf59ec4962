#include "evenlit/base/utf8.hpp"

namespace evenlit {
namespace {

constexpr CodePoint k_malformed{.value = 0, .bytes = 1, .is_valid = false};

int length_from_lead(unsigned char lead) {
  if (lead < 0x80) return 1;
  if (lead >= 0xc2 && lead <= 0xdf) return 2;
  if (lead >= 0xe0 && lead <= 0xef) return 3;
  if (lead >= 0xf0 && lead <= 0xf4) return 4;
  return 0;
}

bool is_scalar_of_length(char32_t value, int bytes) {
  if (bytes == 3) return value >= 0x800 && (value < 0xd800 || value > 0xdfff);
  if (bytes == 4) return value >= 0x10000 && value <= 0x10ffff;
  return true;
}

}  // namespace

CodePoint first_code_point(std::string_view text) {
  const auto lead = static_cast<unsigned char>(text.front());
  const int bytes = length_from_lead(lead);
  if (bytes == 0 || static_cast<std::size_t>(bytes) > text.size()) return k_malformed;
  if (bytes == 1) return {.value = lead};

  char32_t value = lead & (0x7fu >> bytes);
  for (const char c : text.substr(1, static_cast<std::size_t>(bytes) - 1)) {
    const auto byte = static_cast<unsigned char>(c);
    if ((byte & 0xc0u) != 0x80u) return k_malformed;
    value = (value << 6) | (byte & 0x3fu);
  }
  return is_scalar_of_length(value, bytes) ? CodePoint{.value = value, .bytes = bytes} : k_malformed;
}

bool is_utf8(std::string_view text) {
  while (!text.empty()) {
    const CodePoint point = first_code_point(text);
    if (!point.is_valid) return false;
    text.remove_prefix(static_cast<std::size_t>(point.bytes));
  }
  return true;
}

int code_points(std::string_view text) {
  int count = 0;
  while (!text.empty()) {
    text.remove_prefix(static_cast<std::size_t>(first_code_point(text).bytes));
    ++count;
  }
  return count;
}

}  // namespace evenlit
