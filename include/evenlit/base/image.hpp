#pragma once

#include <cstdint>
#include <vector>

namespace evenlit {

/// An opaque colour, sRGB. Not initialised by itself, so that many of them are copied as bytes.
struct Rgb {
  std::uint8_t red;
  std::uint8_t green;
  std::uint8_t blue;

  friend bool operator==(const Rgb&, const Rgb&) = default;
};

/// Pixels row by row from the top left.
struct Image {
  int width = 0;
  int height = 0;
  std::vector<Rgb> pixels;  ///< width x height

  Rgb& at(int x, int y) { return pixels[static_cast<std::size_t>(y) * width + x]; }
  const Rgb& at(int x, int y) const { return pixels[static_cast<std::size_t>(y) * width + x]; }

  friend bool operator==(const Image&, const Image&) = default;
};

}  // namespace evenlit
