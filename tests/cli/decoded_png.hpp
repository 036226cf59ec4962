#pragma once

#include <string>
#include <vector>

/// A PNG that libpng has decoded to the end; anything wrong with it ends the test.
struct DecodedPng {
  int width = 0;
  int height = 0;
  std::vector<unsigned char> levels;  ///< red, green, blue of each pixel
};

DecodedPng decoded_png(const std::string& bytes);
