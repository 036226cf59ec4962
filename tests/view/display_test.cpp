#include "evenlit/view/display.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "evenlit/moods/colour_display.hpp"
#include "view/pictures.hpp"

using namespace evenlit;
using Eigen::Vector3d;

namespace {

const Vector3d k_white = Vector3d::Ones();

Exposure exposure_of(const LuminancePicture& picture, const Vector3d& light_rgb = k_white) {
  return exposure({&picture, 1}, light_rgb);
}

/// What a pixel of so much light is shown as, on a straight scale with `white` as 1.
Rgb shown(const Eigen::Array3f& rgb, const Exposure& exposure) {
  return displayed(sample::plain(1, 1, 1, rgb), exposure).at(0, 0);
}

const Exposure k_straight{.scale_m2_per_cd = 1, .white = 1};

double mean_grey(const Image& image) {
  double sum = 0;
  for (const Rgb& pixel : image.pixels) sum += pixel.green;
  return sum / static_cast<double>(image.pixels.size());
}

bool is_grey(const Rgb& pixel) { return pixel.red == pixel.green && pixel.green == pixel.blue; }

}  // namespace

// By hand, with 75^0.4 = 5.6240: (1.219 + 5.6240)^2.5 = 122.50. For 50 cd/m2 50^0.4 = 4.7818: (6.0008)^2.5 = 88.21;
// for 5 cd/m2 5^0.4 = 1.9037: (3.1227)^2.5 = 17.231; for none 1.219^2.5 = 1.6406. Four digits.
TEST_CASE("the scale at which an adapted eye sees as much on the screen", "[view][formula]") {
  CHECK(visibility_scale(50) == Approx(122.50 / 88.21).epsilon(2e-4));
  CHECK(visibility_scale(5) == Approx(122.50 / 17.231).epsilon(2e-4));
  CHECK(visibility_scale(0) == Approx(122.50 / 1.6406).epsilon(2e-4));
  CHECK(visibility_scale(75) == Approx(1).epsilon(1e-12));
}

TEST_CASE("a brighter room is shown brighter, and never as bright as the screen's white", "[view][property]") {
  double before = 0;
  for (double cd_m2 = 1e-3; cd_m2 < 1e9; cd_m2 *= 1.5) {
    const double share = visibility_scale(cd_m2) * cd_m2 / k_screen_white_cd_m2;
    CHECK(share > before);
    CHECK(share < 0.82);
    before = share;
  }
}

// Equation 4 at 0, 1 and white: 0, (1 + 1 / white^2) / 2, 1.
TEST_CASE("the shoulder", "[view][formula]") {
  const double white = GENERATE(1.0, 1.5, 4.0, 300.0);
  CHECK(shoulder(0, white) == 0);
  CHECK(shoulder(1, white) == Approx((1 + 1 / (white * white)) / 2).epsilon(1e-14));
  CHECK(shoulder(white, white) == Approx(1).epsilon(1e-14));
  for (double light = 0; light < white; light += white / 100) {
    CHECK(shoulder(light + white / 100, white) > shoulder(light, white));
    CHECK(shoulder(light, 1) == Approx(light).epsilon(1e-14));
  }
}

// By hand: 1 - exp(-42 / 92) / 3.6 = 1 - 0.63350 / 3.6; at 50 cd/m2 1 - exp(-1) / 3.6 = 1 - 0.102189.
TEST_CASE("the degree to which an eye gets used to a colour", "[view][formula]") {
  CHECK(colour_adaptation(0) == Approx(0.82403).epsilon(1e-5));
  CHECK(colour_adaptation(50) == Approx(0.897811).epsilon(1e-6));
  CHECK(colour_adaptation(1e9) == 1);
}

TEST_CASE("a picture of one luminance is one grey, as bright as the scale has it", "[view][exact]") {
  const LuminancePicture picture = sample::plain(300, 7, 48);
  const Image image = displayed(picture, exposure_of(picture));
  CHECK(image.width == 300);
  CHECK(image.height == 7);
  REQUIRE(image.pixels.size() == 2100);
  CHECK(std::ranges::count(image.pixels, image.at(0, 0)) == 2100);
  CHECK(is_grey(image.at(0, 0)));
  // 0.2 % of the usual luminance, which enters the scale with a power of at most 1, is 0.2 of a level.
  const double level = 255 * encoded(visibility_scale(48) * 48 / k_screen_white_cd_m2);
  CHECK(image.at(0, 0).red == Approx(level).margin(0.75));
}

// IEC 61966-2-1:1999: half the light is level 188, 18 % is 118.
TEST_CASE("known grey levels", "[view][published]") {
  CHECK(shown({0.5F, 0.5F, 0.5F}, k_straight) == Rgb{188, 188, 188});
  CHECK(shown({0.18F, 0.18F, 0.18F}, k_straight) == Rgb{118, 118, 118});
  CHECK(shown({0, 0, 0}, k_straight) == Rgb{0, 0, 0});
  CHECK(shown({1, 1, 1}, k_straight) == Rgb{255, 255, 255});
}

TEST_CASE("grey levels are within 0.52 of the exact ones, and rise with the light", "[view][property]") {
  const Exposure exposure{.scale_m2_per_cd = 0.7, .white = GENERATE(1.0, 3.0)};
  LuminancePicture ramp = sample::plain(20'000, 1, 0);
  for (auto& channel : ramp.rgb_cd_m2) {
    for (int i = 0; i < ramp.width; ++i) channel[i] = 6 * std::pow(static_cast<float>(i) / 20'000, 2);
  }
  const Image image = displayed(ramp, exposure);
  double worst = 0;
  for (int i = 0; i < ramp.width; ++i) {
    const double light = std::min(0.7 * ramp.rgb_cd_m2[1][i], exposure.white);
    const double level = 255 * encoded(shoulder(light, exposure.white));
    worst = std::max(worst, std::abs(image.at(i, 0).green - level));
    if (i > 0) CHECK(image.at(i, 0).green >= image.at(i - 1, 0).green);
  }
  CHECK(worst <= 0.52);
}

TEST_CASE("colours that fit keep their hue, others fade toward grey and grow darker", "[view][exact]") {
  const Rgb fits = shown({0.5F, 0.18F, 0.05F}, k_straight);
  CHECK(fits == Rgb{188, 118, static_cast<std::uint8_t>(std::lround(255 * encoded(0.05)))});
  // Red of 2 x its primary: luminance 0.4252, so that 1 - 0.4252 of 2 - 0.4252 off grey would fit; its root is kept.
  const double kept = std::sqrt(0.5748 / 1.5748);
  const Rgb red = shown({2, 0, 0}, k_straight);
  CHECK(red.red == 255);
  CHECK(red.green == red.blue);
  CHECK(red.green == Approx(255 * encoded(0.4252 * (1 - kept) / (0.4252 + kept * 1.5748))).margin(0.52));
  const Rgb below = shown({0.6F, 0.4F, -0.1F}, k_straight);
  CHECK(below.blue == 0);
  CHECK(below.red > below.green);
  // However bright a colour is it never fades altogether; what is grey is white then.
  const Rgb glaring = shown({50, 10, 1}, k_straight);
  CHECK(glaring.red == 255);
  CHECK(glaring.green > glaring.blue);
  CHECK(shown({50, 50, 50}, k_straight) == Rgb{255, 255, 255});
}

TEST_CASE("what is usual stays where it is when highlights bend the scale", "[view][property]") {
  LuminancePicture picture = sample::plain(100, 100, 30);
  const double level = displayed(picture, exposure_of(picture)).at(0, 0).green;
  for (const float bright : {60.0F, 200.0F, 5000.0F}) {
    for (auto& channel : picture.rgb_cd_m2) channel.head(200).setConstant(bright);  // of 10'000, twice the openings
    const Exposure exposed = exposure_of(picture);
    const Image image = displayed(picture, exposed);
    // The bright ones raise the usual luminance, by up to 5 %, so that the scale falls by less.
    CHECK(image.at(50, 50).green == Approx(level).margin(3));
    CHECK(exposed.white >= 1);
    CHECK(shoulder(exposed.scale_m2_per_cd * exposed.adaptation_cd_m2, exposed.white) ==
          Approx(visibility_scale(exposed.adaptation_cd_m2) * exposed.adaptation_cd_m2 / k_screen_white_cd_m2));
    if (bright >= 200) CHECK(image.at(0, 0).green >= 254);
    CHECK(image.at(0, 0).green > image.at(50, 50).green);
  }
}

// 300 lx on the floor of a room of usual greys is 20 to 50 cd/m2 on most of it. A photograph of a bright room has a
// mean level of some 150 to 200, one of a dim room 80 to 130; a tenth of the light next to the bright room is below 80,
// yet not black. Bands of our own choice.
TEST_CASE("a bright room looks bright and a dim one dim, more so side by side", "[view]") {
  const std::vector<LuminancePicture> rooms{sample::room(300), sample::room(30)};
  const double bright = mean_grey(displayed(rooms[0], exposure_of(rooms[0])));
  const double dim = mean_grey(displayed(rooms[1], exposure_of(rooms[1])));
  const Exposure both = exposure(rooms, k_white);
  const double bright_beside = mean_grey(displayed(rooms[0], both));
  const double dim_beside = mean_grey(displayed(rooms[1], both));
  CAPTURE(bright, dim, bright_beside, dim_beside);
  CHECK((bright > 145 && bright < 200));
  CHECK((dim > 80 && dim < 130));
  CHECK(bright_beside == bright);  // the eye is adapted to the brighter one
  CHECK((dim_beside > 40 && dim_beside < dim - 15));
}

TEST_CASE("more light is never shown darker", "[view][property]") {
  double before = 0;
  for (float lx = 0.1F; lx < 1e5F; lx *= 1.7F) {
    const LuminancePicture picture = sample::room(lx);
    const double grey = mean_grey(displayed(picture, exposure_of(picture)));
    CHECK(grey >= before);
    before = grey;
  }
}

TEST_CASE("warm light looks warm, but less so to an eye that is used to it", "[view][property]") {
  const Vector3d warm = tint(black_body(2700), k_d65);
  const LuminancePicture picture = sample::plain(8, 8, 30, warm.cast<float>().array());
  const Rgb unused = displayed(picture, exposure_of(picture)).at(0, 0);
  const Rgb used = displayed(picture, exposure_of(picture, warm)).at(0, 0);
  CHECK(used.red > used.green);
  CHECK(used.green > used.blue);
  CHECK(used.red - used.blue < 0.3 * (unused.red - unused.blue));
  Exposure fully = exposure_of(picture, warm);
  fully.colour_adaptation = 1;
  const Rgb grey = displayed(picture, fully).at(0, 0);
  CHECK(is_grey(grey));
  Exposure none = fully;
  none.colour_adaptation = 0;
  CHECK(displayed(picture, none).at(0, 0) == unused);
}

TEST_CASE("to an eye that is used to the light a surface has its own colour, as bright as it is", "[view][exact]") {
  const Vector3d warm = tint(black_body(2700), k_d65);
  const Vector3d floor = tint_of({{156, 111, 69}});
  const Vector3d lit = 20 * floor.cwiseProduct(warm) / k_luminance_of_rgb.dot(floor.cwiseProduct(warm));
  Exposure used{.scale_m2_per_cd = 0.01, .light_rgb = warm, .colour_adaptation = 1};
  const Rgb seen = displayed(sample::plain(1, 1, 1, lit.cast<float>().array()), used).at(0, 0);
  const Rgb own = displayed(sample::plain(1, 1, 20, floor.cast<float>().array()), {.scale_m2_per_cd = 0.01}).at(0, 0);
  // Rounding may fall to either side.
  CHECK(std::abs(seen.red - own.red) <= 1);
  CHECK(std::abs(seen.green - own.green) <= 1);
  CHECK(std::abs(seen.blue - own.blue) <= 1);
}

TEST_CASE("light as white as the screen changes no colour", "[view][exact]") {
  std::mt19937 random(3);
  for (int i = 0; i < 50; ++i) {
    const auto share = [&] { return static_cast<float>(random()) / 4294967296.0F; };
    const Eigen::Array3f rgb(share(), share(), share());
    const Rgb pixel = shown(rgb, k_straight);
    CHECK(pixel.red == Approx(255 * encoded(rgb[0])).margin(0.52));
    CHECK(pixel.green == Approx(255 * encoded(rgb[1])).margin(0.52));
    CHECK(pixel.blue == Approx(255 * encoded(rgb[2])).margin(0.52));
  }
}

TEST_CASE("darkness, faint and glaring light have an exposure and a picture", "[view][property]") {
  for (const float usual : {0.0F, 1e-12F, 1.0F, 1e9F}) {
    for (const float spot : {0.0F, 1e-12F, 1e9F}) {
      for (const Eigen::Array3f& colour : {Eigen::Array3f(1, 1, 1), Eigen::Array3f(3, -0.2F, 0.5F)}) {
        LuminancePicture picture = sample::plain(40, 10, usual);
        for (int channel = 0; channel < 3; ++channel) picture.rgb_cd_m2[channel].head(20) = spot * colour[channel];
        const Exposure exposed = exposure_of(picture);
        CHECK(std::isfinite(exposed.scale_m2_per_cd));
        CHECK(exposed.scale_m2_per_cd > 0);
        CHECK(std::isfinite(exposed.white));
        CHECK(exposed.white >= 1);
        const Image image = displayed(picture, exposed);
        if (usual < 1e-6F) CHECK(image.at(39, 9) == Rgb{0, 0, 0});
        if (spot > std::max(usual, 1.0F)) CHECK(image.at(0, 0).red >= 254);
      }
    }
  }
  CHECK(displayed({}, exposure({}, k_white)).pixels.empty());
}
