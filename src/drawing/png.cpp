#include "evenlit/drawing/png.hpp"

#include <cstdlib>

// stb_image_write does the format. Compression is libdeflate's where it is linked (the browser's build goes without):
// the library asks for a function that returns a malloc'ed zlib stream.
#ifndef EVENLIT_WITHOUT_DEFLATE
#include <libdeflate.h>
namespace {
unsigned char* zlib_compress(unsigned char* data, int size, int* out_size, int) {
  constexpr int k_level = 1;  // false colours shrink little more at higher levels, which take several times as long
  libdeflate_compressor* compressor = libdeflate_alloc_compressor(k_level);
  const std::size_t bound = libdeflate_zlib_compress_bound(compressor, static_cast<std::size_t>(size));
  auto* out = static_cast<unsigned char*>(std::malloc(bound));
  if (out) *out_size = static_cast<int>(libdeflate_zlib_compress(compressor, data, size, out, bound));
  libdeflate_free_compressor(compressor);
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

}  // namespace

std::string png(const Image& image) {
  static_assert(sizeof(Rgb) == 3);
  std::string bytes;
  stbi_write_png_to_func(append, &bytes, image.width, image.height, 3, image.pixels.data(), 3 * image.width);
  return bytes;
}

}  // namespace evenlit
