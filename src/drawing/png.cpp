#include "evenlit/drawing/png.hpp"

#include <cstdlib>

// stb_image_write does the format. Compression is ISA-L's where it is linked (the browser's build goes without):
// the library asks for a function that returns a malloc'ed zlib stream.
#ifndef EVENLIT_WITHOUT_ISAL
#include <isa-l.h>

#include <vector>

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

}  // namespace

std::string png(const Image& image) {
  static_assert(sizeof(Rgb) == 3);
  std::string bytes;
  stbi_write_png_to_func(append, &bytes, image.width, image.height, 3, image.pixels.data(), 3 * image.width);
  return bytes;
}

}  // namespace evenlit
