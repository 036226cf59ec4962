#include "evenlit/drawing/colour_map.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

using namespace evenlit;

namespace {

// CIE 1976 lightness L* of an sRGB colour (IEC 61966-2-1, CIE 15).
double lightness(const Rgb& colour) {
  const auto linear = [](std::uint8_t component) {
    const double c = component / 255.0;
    return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  };
  const double y = 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
  return 116 * std::cbrt(y) - 16;
}

}  // namespace

TEST_CASE("entries of the colour map are the published ones", "[drawing][published]") {
  // Nunez, Anderson, Renslow, PLoS ONE 13(7), 2018: 0 (0, 0.135112, 0.304751), 64 (0.262, 0.305, 0.424) in 1/255ths,
  // 128 (0.488697, 0.485318, 0.471008), 255 (0.995737, 0.909344, 0.217772)
  CHECK(k_cividis[0] == Rgb{0, 34, 78});
  CHECK(k_cividis[64] == Rgb{67, 78, 108});
  CHECK(k_cividis[128] == Rgb{125, 124, 120});
  CHECK(k_cividis[192] == Rgb{188, 174, 108});
  CHECK(k_cividis[255] == Rgb{254, 232, 56});
}

TEST_CASE("lightness rises along the colour map", "[drawing][property]") {
  // Rounding to 8 bits may take back what a step adds: half a step of one component is up to 0.2 of L* (green, dark
  // end).
  for (std::size_t i = 1; i < k_cividis.size(); ++i) {
    CHECK(lightness(k_cividis[i]) > lightness(k_cividis[i - 1]) - 0.2);
  }
  for (std::size_t i = 4; i < k_cividis.size(); ++i) {
    CHECK(lightness(k_cividis[i]) > lightness(k_cividis[i - 4]));
  }
}

TEST_CASE("the ends of the scale hold what lies beyond", "[drawing][exact]") {
  CHECK(colour_map(-1) == k_cividis.front());
  CHECK(colour_map(0) == k_cividis.front());
  CHECK(colour_map(1) == k_cividis.back());
  CHECK(colour_map(std::numeric_limits<double>::infinity()) == k_cividis.back());
  CHECK(colour_map(127.4 / 255) == k_cividis[127]);
  CHECK(colour_map(127.6 / 255) == k_cividis[128]);
}

TEST_CASE("the colours of a change are the published classes, run backwards", "[drawing][published]") {
  // ColorBrewer 2.0, PuOr, 11 classes: 7f3b08, b35806, e08214, fdb863, fee0b6, f7f7f7, d8daeb, b2abd2, 8073ac, 542788,
  // 2d004b. A class is 25.5 steps from the next, so that every second one is an entry of the table.
  CHECK(k_purple_orange[0] == Rgb{0x2d, 0x00, 0x4b});
  CHECK(k_purple_orange[51] == Rgb{0x80, 0x73, 0xac});
  CHECK(k_purple_orange[102] == Rgb{0xd8, 0xda, 0xeb});
  CHECK(k_purple_orange[153] == Rgb{0xfe, 0xe0, 0xb6});
  CHECK(k_purple_orange[204] == Rgb{0xe0, 0x82, 0x14});
  CHECK(k_purple_orange[255] == Rgb{0x7f, 0x3b, 0x08});
}

TEST_CASE("no change is the lightest of its colours", "[drawing][property]") {
  // Between the two middle entries; both sides darken from there.
  for (std::size_t i = 1; i <= 127; ++i) CHECK(lightness(k_purple_orange[i]) > lightness(k_purple_orange[i - 1]) - 0.2);
  for (std::size_t i = 129; i < 256; ++i)
    CHECK(lightness(k_purple_orange[i]) < lightness(k_purple_orange[i - 1]) + 0.2);
  CHECK(lightness(k_purple_orange[127]) > 96);
  CHECK(lightness(k_purple_orange[128]) > 96);
}
