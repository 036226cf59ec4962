#include "evenlit/drawing/png.hpp"

#include <catch2/catch.hpp>
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
