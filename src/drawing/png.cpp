#include "evenlit/drawing/png.hpp"

#include <algorithm>
#include <boost/crc.hpp>
#include <cassert>
#include <cstdlib>
#include <vector>

#include "evenlit/base/utf8.hpp"

// stb_image_write does the format. Compression is ISA-L's where it is linked (the browser's build goes without):
// the library asks for a function that returns a malloc'ed zlib stream.
#ifndef EVENLIT_WITHOUT_ISAL
#include <isa-l.h>

namespace {

unsigned char* zlib_compress(unsigned char* data, int size, int* out_size, int) {
  std::vector<unsigned char> work(ISAL_DEF_LVL1_DEFAULT);
  isal_zstream stream;
  isal_deflate_init(&stream);
  stream.level = 1;
  stream.level_buf = work.data();
  stream.level_buf_size = static_cast<std::uint32_t>(work.size());
  stream.gzip_flag = IGZIP_ZLIB;
  stream.end_of_stream = 1;
  stream.next_in = data;
  stream.avail_in = static_cast<std::uint32_t>(size);
  const std::size_t bound = static_cast<std::size_t>(size) + size / 8 + 1024;  // stored blocks and their headers
  auto* out = static_cast<unsigned char*>(std::malloc(bound));
  if (!out) return nullptr;
  stream.next_out = out;
  stream.avail_out = static_cast<std::uint32_t>(bound);
  isal_deflate(&stream);
  *out_size = static_cast<int>(stream.total_out);
  return out;
}

}  // namespace
#define STBIW_ZLIB_COMPRESS zlib_compress
#endif

#define STB_IMAGE_WRITE_IMPLEMENTATION
#define STB_IMAGE_WRITE_STATIC
#define STBI_WRITE_NO_STDIO
#include <stb_image_write.h>

namespace evenlit {
namespace {

// No row filter, set once before anything runs: flat paper and the 256 false colours repeat byte by byte, so that the
// differences which filters make compress no better, and trying all five on each row takes longer than all the rest.
[[maybe_unused]] const int k_row_filter = stbi_write_force_png_filter = 0;

void append(void* out, void* bytes, int size) {
  static_cast<std::string*>(out)->append(static_cast<const char*>(bytes), static_cast<std::size_t>(size));
}

/// Where the signature and the header chunk end.
constexpr std::size_t k_after_header = 8 + 25;

std::string big_endian(std::size_t value) {
  std::string bytes;
  for (const int shift : {24, 16, 8, 0}) bytes += static_cast<char>((value >> shift) & 0xffU);
  return bytes;
}

std::string chunk(const std::string& type, const std::string& data) {
  const std::string summed = type + data;
  boost::crc_32_type sum;
  sum.process_bytes(summed.data(), summed.size());
  return big_endian(data.size()) + summed + big_endian(sum.checksum());
}

[[maybe_unused]] bool is_keyword(const std::string& keyword) {
  constexpr std::size_t k_longest = 79;
  return !keyword.empty() && keyword.size() <= k_longest && keyword.front() != ' ' && keyword.back() != ' ' &&
         keyword.find("  ") == std::string::npos &&
         std::ranges::all_of(keyword, [](char c) { return c >= ' ' && c <= '~'; });
}

std::string storable(std::string_view text) {
  std::string stored;
  while (!text.empty()) {
    const CodePoint first = first_code_point(text);
    const auto bytes = static_cast<std::size_t>(first.bytes);
    stored += first.value == 0 ? "?" : text.substr(0, bytes);  // a byte that is not UTF-8 has no value either
    text.remove_prefix(bytes);
  }
  return stored;
}

std::string text_chunk(const PngText& text) {
  assert(is_keyword(text.keyword));
  const std::string stored = storable(text.text);
  const std::string keyword = text.keyword + '\0';
  if (std::ranges::all_of(stored, [](char c) { return static_cast<unsigned char>(c) < 0x80; })) {
    return chunk("tEXt", keyword + stored);
  }
  const std::string as_it_is("\0\0\0\0", 4);  // not compressed, by no method; no language, no keyword in it
  return chunk("iTXt", keyword + as_it_is + stored);
}

}  // namespace

std::string png(const Image& image, std::span<const PngText> texts) {
  static_assert(sizeof(Rgb) == 3);
  std::string bytes;
  stbi_write_png_to_func(append, &bytes, image.width, image.height, 3, image.pixels.data(), 3 * image.width);
  std::string chunks;
  for (const PngText& text : texts) chunks += text_chunk(text);
  return bytes.insert(k_after_header, chunks);
}

std::string png(const MaskedImage& masked) {
  constexpr int k_channels = 4;
  const auto& [image, opacity] = masked;
  std::vector<std::uint8_t> pixels;
  pixels.reserve(k_channels * opacity.size());
  for (std::size_t i = 0; i < opacity.size(); ++i) {
    const Rgb& colour = image.pixels[i];
    pixels.insert(pixels.end(), {colour.red, colour.green, colour.blue, opacity[i]});
  }
  std::string bytes;
  stbi_write_png_to_func(append, &bytes, image.width, image.height, k_channels, pixels.data(),
                         k_channels * image.width);
  return bytes;
}

}  // namespace evenlit
