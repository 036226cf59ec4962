#include "evenlit/drawing/png.hpp"

#include <png.h>

#include <catch2/catch.hpp>
#include <csetjmp>
#include <cstring>

#define STB_IMAGE_IMPLEMENTATION
#define STB_IMAGE_STATIC
#define STBI_ONLY_PNG
#define STBI_NO_STDIO
#include <stb/stb_image.h>

using namespace evenlit;

namespace {

Image gradient(int width, int height) {
  Image image{width, height, {}};
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      image.pixels.push_back({static_cast<std::uint8_t>(x * 7 + y), static_cast<std::uint8_t>(x * y),
                              static_cast<std::uint8_t>(x > y ? 200 : 10)});
    }
  }
  return image;
}

/// What is left to read of a file in memory.
struct Rest {
  const std::string& bytes;
  std::size_t at = 0;
};

void read_some(png_structp file, png_bytep out, std::size_t count) {
  auto& rest = *static_cast<Rest*>(png_get_io_ptr(file));
  if (rest.bytes.size() - rest.at < count) png_error(file, "ends early");
  std::memcpy(out, rest.bytes.data() + rest.at, count);
  rest.at += count;
}

struct ReadText {
  std::string keyword, text;
  bool is_international = false;
};

/// All texts of a file as libpng finds them before the pixels; a problem of any kind fails the test.
std::vector<ReadText> texts_in(const std::string& bytes) {
  Rest rest{bytes};
  png_structp file = png_create_read_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr,
                                            [](png_structp of, png_const_charp what) { png_error(of, what); });
  png_infop info = png_create_info_struct(file);
  std::vector<ReadText> found;
  if (setjmp(png_jmpbuf(file)) != 0) {
    png_destroy_read_struct(&file, &info, nullptr);
    FAIL("libpng refuses the file");
  }
  png_set_read_fn(file, &rest, read_some);
  png_read_info(file, info);
  png_textp texts = nullptr;
  const int count = png_get_text(file, info, &texts, nullptr);
  for (int i = 0; i < count; ++i) {
    const bool is_international = texts[i].compression >= PNG_ITXT_COMPRESSION_NONE;
    const std::size_t length = is_international ? texts[i].itxt_length : texts[i].text_length;
    found.push_back({texts[i].key, std::string(texts[i].text, length), is_international});
  }
  png_destroy_read_struct(&file, &info, nullptr);
  return found;
}

}  // namespace

TEST_CASE("a PNG decodes to the pixels that went in", "[drawing][reference]") {
  for (const auto& [width, height] : {std::pair{1, 1}, {3, 5}, {257, 63}}) {
    const Image image = gradient(width, height);
    const std::string bytes = png(image);
    int read_width = 0;
    int read_height = 0;
    int channels = 0;
    stbi_uc* pixels = stbi_load_from_memory(reinterpret_cast<const stbi_uc*>(bytes.data()),
                                            static_cast<int>(bytes.size()), &read_width, &read_height, &channels, 3);
    REQUIRE(pixels != nullptr);
    CHECK(read_width == width);
    CHECK(read_height == height);
    CHECK(channels == 3);
    CHECK(std::memcmp(pixels, image.pixels.data(), image.pixels.size() * 3) == 0);
    stbi_image_free(pixels);
  }
}

TEST_CASE("a PNG holds nothing but the picture, so equal pictures are equal files", "[drawing][exact]") {
  const std::string bytes = png(gradient(40, 30));
  CHECK(bytes == png(gradient(40, 30)));
  CHECK(bytes.substr(0, 8) == "\x89PNG\r\n\x1a\n");
  CHECK(bytes.find("tIME") == std::string::npos);
  CHECK(bytes.find("tEXt") == std::string::npos);
}

TEST_CASE("texts of a PNG are read back as they went in, and the pixels with them", "[drawing][reference]") {
  const Image image = gradient(31, 7);
  const std::vector<PngText> texts{{"Title", "Den, evening"},
                                   {"Description", "two lines\nof ASCII"},
                                   {"Comment", "Küche: 5 cd/m²"},
                                   {"Empty", ""},
                                   {std::string(79, 'k'), std::string(70'000, 't')}};
  const std::string bytes = png(image, texts);
  const std::vector<ReadText> read = texts_in(bytes);
  REQUIRE(read.size() == texts.size());
  for (std::size_t i = 0; i < texts.size(); ++i) {
    CHECK(read[i].keyword == texts[i].keyword);
    CHECK(read[i].text == texts[i].text);
    CHECK(read[i].is_international == (i == 2));
  }
  png_image whole{};
  whole.version = PNG_IMAGE_VERSION;
  REQUIRE(png_image_begin_read_from_memory(&whole, bytes.data(), bytes.size()) != 0);
  whole.format = PNG_FORMAT_RGB;
  std::vector<png_byte> pixels(PNG_IMAGE_SIZE(whole));
  REQUIRE(png_image_finish_read(&whole, nullptr, pixels.data(), 0, nullptr) != 0);
  CHECK(std::memcmp(pixels.data(), image.pixels.data(), pixels.size()) == 0);
}

TEST_CASE("what a PNG's text may not hold shows as a question mark", "[drawing][exact]") {
  const std::vector<PngText> texts{{"Title", std::string("a\0b", 3)}, {"Comment", "é\xff"}};
  const std::vector<ReadText> read = texts_in(png(gradient(2, 2), texts));
  REQUIRE(read.size() == 2);
  CHECK(read[0].text == "a?b");
  CHECK(read[1].text == "é?");
}
