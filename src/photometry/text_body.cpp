#include "text_body.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace evenlit {
namespace {

constexpr std::size_t k_largest_file = std::size_t{64} << 20;  ///< bytes
constexpr std::string_view k_byte_order_mark = "\xEF\xBB\xBF";

bool is_utf16(std::string_view bytes) {
  if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF")) return true;
  const auto start = bytes.substr(0, 64);
  return std::ranges::count(start, '\0') > std::ssize(start) / 3;
}

}  // namespace

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

}  // namespace evenlit
