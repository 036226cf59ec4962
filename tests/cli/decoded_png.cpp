#include "decoded_png.hpp"

#include <png.h>

#include <catch2/catch.hpp>

DecodedPng decoded_png(const std::string& bytes) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  REQUIRE(png_image_begin_read_from_memory(&image, bytes.data(), bytes.size()) != 0);
  image.format = PNG_FORMAT_RGB;
  std::vector<unsigned char> levels(PNG_IMAGE_SIZE(image));
  REQUIRE(png_image_finish_read(&image, nullptr, levels.data(), 0, nullptr) != 0);
  CHECK(image.warning_or_error == 0);
  return {static_cast<int>(image.width), static_cast<int>(image.height), std::move(levels)};
}
