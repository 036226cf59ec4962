#include "resized.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "evenlit/base/srgb.hpp"
#include "evenlit/drawing/rasterise.hpp"
#include "evenlit/drawing/svg.hpp"

using namespace evenlit;

namespace {

Image gradient(int width, int height) {
  Image image{width, height, std::vector<Rgb>(static_cast<std::size_t>(width) * height)};
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const auto level = static_cast<std::uint8_t>(255 * x / std::max(1, width - 1));
      image.at(x, y) = {level, static_cast<std::uint8_t>(255 * y / std::max(1, height - 1)), 77};
    }
  }
  return image;
}

/// Mean light of the red channel.
double red_light(const Image& image) {
  double light = 0;
  for (const Rgb& pixel : image.pixels) light += decoded(pixel.red / 255.0);
  return light / static_cast<double>(image.pixels.size());
}

}  // namespace

TEST_CASE("resized: an image of its own size is itself", "[drawing][exact]") {
  const Image image = gradient(13, 7);
  CHECK(resized(image, 13, 7) == image);
}

TEST_CASE("resized: an even image stays even, larger or smaller", "[drawing][property]") {
  const Image even{9, 5, std::vector<Rgb>(45, Rgb{200, 30, 0})};
  for (const auto& [width, height] : {std::pair{4, 3}, {30, 20}, {1, 1}, {9, 50}}) {
    for (const Rgb& pixel : resized(even, width, height).pixels) CHECK(pixel == Rgb{200, 30, 0});
  }
}

TEST_CASE("resized: light is kept where an image grows smaller", "[drawing][property]") {
  // Each level is rounded, by half of one in 255, about 1 % of the light of middle grey, to both sides.
  const Image image = gradient(120, 90);
  CHECK(red_light(resized(image, 31, 17)) == Approx(red_light(image)).epsilon(0.005));
}

TEST_CASE("resized: black and white mix as light does", "[drawing][exact]") {
  // Half of the light is level 188 (IEC 61966-2-1).
  const Image checks{2, 1, {{0, 0, 0}, {255, 255, 255}}};
  CHECK(resized(checks, 1, 1).pixels.front() == Rgb{188, 188, 188});
}

TEST_CASE("a picture in a drawing is its own pixels where they are as large", "[drawing][exact]") {
  const Image image = gradient(20, 10);
  const Drawing drawing{40, 30, {255, 255, 255}, {Picture{image, {5, 6}, 20}}};
  const Image painted = rasterise(drawing, 40);
  for (int y = 0; y < 10; ++y) {
    for (int x = 0; x < 20; ++x) REQUIRE(painted.at(5 + x, 6 + y) == image.at(x, y));
  }
  CHECK(painted.at(4, 6) == Rgb{255, 255, 255});
  CHECK(painted.at(25, 6) == Rgb{255, 255, 255});
  CHECK(svg(drawing, "a picture").find("<image x=\"5\" y=\"6\" width=\"20\" height=\"10\"") != std::string::npos);
}
