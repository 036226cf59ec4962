#include "evenlit/drawing/rasterise.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "evenlit/drawing/colour_map.hpp"

using namespace evenlit;

namespace {

constexpr Ink k_black{{0, 0, 0}};

Polyline box(double left, double top, double right, double bottom) {
  return {{left, top}, {right, top}, {right, bottom}, {left, bottom}};
}

Image render(double width, double height, DrawingItem item, int width_px) {
  Drawing drawing{width, height, {255, 255, 255}, {}};
  drawing.items.push_back(std::move(item));
  return rasterise(drawing, width_px);
}

// Grey that black ink leaves on white paper where it covers so much of a pixel.
int grey(double coverage) { return static_cast<int>(std::floor(255 - 255 * coverage + 0.5)); }

// Area painted black, in pixels; each pixel's share is known to half of an 8-bit step.
double area(const Image& image) {
  double sum = 0;
  for (const Rgb& pixel : image.pixels) sum += (255 - pixel.red) / 255.0;
  return sum;
}

}  // namespace

TEST_CASE("a rectangle covers each pixel by its exact area", "[drawing][exact]") {
  const Image image = render(4, 3, Fill{{box(0.25, 0.5, 2.5, 2)}, k_black}, 4);
  REQUIRE(image.width == 4);
  REQUIRE(image.height == 3);
  const double expected[3][4] = {{0.375, 0.5, 0.25, 0}, {0.75, 1, 0.5, 0}, {0, 0, 0, 0}};
  for (int y = 0; y < 3; ++y) {
    for (int x = 0; x < 4; ++x) CHECK(static_cast<int>(image.at(x, y).red) == grey(expected[y][x]));
  }
}

TEST_CASE("a slanted edge covers each pixel by its exact area", "[drawing][exact]") {
  // The triangle under the line y = x / 2 of a 4 x 2 image: areas by hand from the trapezoids in each pixel.
  const Image image = render(4, 2, Fill{{{{0, 0}, {4, 2}, {0, 2}}}, k_black}, 4);
  const double expected[2][4] = {{0.75, 0.25, 0, 0}, {1, 1, 0.75, 0.25}};
  for (int y = 0; y < 2; ++y) {
    for (int x = 0; x < 4; ++x) CHECK(static_cast<int>(image.at(x, y).red) == grey(expected[y][x]));
  }
}

TEST_CASE("the way round of an outline does not matter, the other way round inside it cuts a hole",
          "[drawing][exact]") {
  Polyline reversed = box(1, 1, 3, 3);
  std::reverse(reversed.begin(), reversed.end());
  CHECK(render(4, 4, Fill{{reversed}, k_black}, 4) == render(4, 4, Fill{{box(1, 1, 3, 3)}, k_black}, 4));
  const Image ring = render(4, 4, Fill{{box(0, 0, 4, 4), reversed}, k_black}, 4);
  CHECK(area(ring) == 12);
  CHECK(ring.at(1, 1) == Rgb{255, 255, 255});
}

TEST_CASE("what lies outside the image is cut off, wherever it is", "[drawing][exact]") {
  CHECK(area(render(4, 4, Fill{{box(-50, -50, 2, 2)}, k_black}, 4)) == 4);
  CHECK(area(render(4, 4, Fill{{box(2, 2, 1e12, 1e12)}, k_black}, 4)) == 4);
  CHECK(area(render(4, 4, Fill{{box(-9, 1, 9, 2)}, k_black}, 4)) == 4);
  CHECK(area(render(4, 4, Fill{{box(5, 5, 9, 9)}, k_black}, 4)) == 0);
  CHECK(area(render(4, 4, Fill{{box(-9, -9, -1, 9)}, k_black}, 4)) == 0);
  const double nan = std::nan("");
  CHECK(area(render(4, 4, Fill{{{{nan, 0}, {1, nan}, {nan, nan}}}, k_black}, 4)) == 0);
}

TEST_CASE("a disc covers pi r2", "[drawing][exact]") {
  // 60 px: the polygon's chords lose at most 0.05 px of radius, 2/3 of that on average; 8-bit steps average out.
  const double radius = 60;
  const double painted = area(render(128, 128, Fill{{circle({64.3, 63.8}, radius)}, k_black}, 128));
  const double whole = 2 * std::acos(0.0) * radius * radius;
  CHECK(painted <= whole);
  CHECK(painted > whole - 2 * std::acos(0.0) * 2 * radius * 0.05);
}

TEST_CASE("a stroke covers length times width, with its bends filled on the outer side", "[drawing][exact]") {
  CHECK(area(render(20, 10, Stroke{{{2, 5}, {18, 5}}, false, 3, k_black, {}}, 20)) == Approx(48).margin(0.2));
  // An L of two bars 10 long: the square on the inner side is shared, a quarter disc is added on the outer side.
  const double expected = 2 * 10 * 4 - 2 * 2 + 2 * std::acos(0.0) * 4 / 4;
  // The join's chords stray 0.05 px at most from an arc about 3 px long, and 8-bit steps are 1/510 px each at most.
  CHECK(area(render(30, 30, Stroke{{{10, 10}, {20, 10}, {20, 20}}, false, 4, k_black, {}}, 30)) ==
        Approx(expected).margin(0.35));
}

TEST_CASE("a closed stroke has no gap at its first point", "[drawing][exact]") {
  const Image image = render(20, 20, Stroke{box(4, 4, 16, 16), true, 2, k_black, {}}, 20);
  CHECK(image.at(4, 4).red == 0);
  CHECK(image.at(10, 10).red == 255);
  CHECK(image.at(3, 10).red == 0);
  CHECK(image.at(3, 3).red < 100);
}

TEST_CASE("dashes follow one another around a bend", "[drawing][exact]") {
  // 4 on, 2 off along 10 + 10: pieces 0-4, 6-10, 12-16, 18-20 make 14 units of a line 1 wide.
  const Stroke dashed{{{1, 1.5}, {11, 1.5}, {11, 11.5}}, false, 1, k_black, {4, 2}};
  // 8-bit steps of some 20 partly covered pixels
  CHECK(area(render(14, 14, dashed, 14)) == Approx(14).margin(0.1));
}

TEST_CASE("opacity mixes ink and paper", "[drawing][exact]") {
  const Image image = render(2, 1, Fill{{box(0, 0, 1, 1)}, {{255, 0, 0}, 0.5}}, 2);
  CHECK(image.at(0, 0) == Rgb{255, 128, 128});
  CHECK(image.at(1, 0) == Rgb{255, 255, 255});
}

TEST_CASE("a drawing scales to the width that is asked for", "[drawing][exact]") {
  const Image image = render(10, 5.5, Fill{{box(0, 0, 5, 5.5)}, k_black}, 40);
  CHECK(image.width == 40);
  CHECK(image.height == 22);
  CHECK(area(image) == 20 * 22);
}

TEST_CASE("false colour shows the bilinear field within its clip", "[drawing][exact]") {
  SampledField ramp{{0, 0}, {100, 10}, 2, 2, {0, 1, 0, 1}};
  const Image image = render(100, 10, FalseColour{ramp, 1, {box(0, 2, 100, 8)}}, 100);
  CHECK(image.at(50, 1) == Rgb{255, 255, 255});
  for (const int x : {0, 10, 37, 62, 99}) {
    INFO(x);
    CHECK(image.at(x, 5) == colour_map((x + 0.5) / 100));
  }
}

TEST_CASE("false colour is constant beyond the outermost points and above the top", "[drawing][exact]") {
  SampledField field{{4, 4}, {2, -2}, 2, 2, {3, 3, 9, 9}};
  const Image image = render(10, 8, FalseColour{field, 6, {box(0, 0, 10, 8)}}, 10);
  CHECK(image.at(0, 7) == colour_map(0.5));
  CHECK(image.at(9, 0) == colour_map(1));
}

TEST_CASE("false colour of a change runs from its bottom to its top", "[drawing][exact]") {
  const SampledField ramp{{0, 0}, {100, 10}, 2, 1, {-2, 2}};
  const Image image = render(100, 10, FalseColour{ramp, 2, {box(0, 0, 100, 10)}, -2, ColourMap::change}, 100);
  for (const int x : {0, 20, 37, 49, 50, 62, 80, 99}) {
    INFO(x);
    const double value = -2 + 4 * (x + 0.5) / 100;
    CHECK(image.at(x, 5) == k_purple_orange[static_cast<std::size_t>(255 * (value + 2) / 4 + 0.5)]);
  }
  const SampledField beyond{{0, 0}, {100, 10}, 2, 1, {-3, -5}};
  const Image least = render(100, 10, FalseColour{beyond, 2, {box(0, 0, 100, 10)}, -2, ColourMap::change}, 100);
  CHECK(least.at(50, 5) == k_purple_orange.front());
}
