#include "evenlit/moods/colour.hpp"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <random>
#include <vector>

#include "colour_observer.hpp"

using namespace evenlit;
using Eigen::Vector2d;
using Eigen::Vector3d;

namespace {

/// CIE 1960 u, v, from the published u' and v'.
Vector2d uv(const Chromaticity& chromaticity) {
  const Vector2d even = uniform_coordinates(chromaticity);
  return {even.x(), even.y() / 1.5};
}

}  // namespace

// CIE 15:2018: the equal-energy stimulus has x = y = 1/3; the table at 5 nm keeps that to half of the fourth digit.
TEST_CASE("the observer sees equal energy as 1/3, 1/3", "[moods][published]") {
  Vector3d sum = Vector3d::Zero();
  for (const ColourMatch& match : k_observer) sum += Vector3d(match.x, match.y, match.z);
  const Chromaticity white = chromaticity_of(sum);
  CHECK(white.x == Approx(1.0 / 3).margin(5e-5));
  CHECK(white.y == Approx(1.0 / 3).margin(5e-5));
}

// CIE 15:2018; a column of the table that slipped would show here.
TEST_CASE("the observer's maxima are where CIE 15 has them", "[moods][published]") {
  const auto peak_nm = [](double ColourMatch::*part) {
    const auto peak = std::ranges::max_element(k_observer, {}, part);
    return k_first_wavelength_nm + k_wavelength_step_nm * (peak - k_observer.begin());
  };
  CHECK(peak_nm(&ColourMatch::x) == 600);
  CHECK(peak_nm(&ColourMatch::y) == 555);
  CHECK(peak_nm(&ColourMatch::z) == 445);
  CHECK(k_observer[39].y == 1);
}

// CIE 15:2018, illuminant A: Planck's law at 2848 K with c2 = 1.4350e-2, that is at 2848 x 1.4388 / 1.4350 K with
// today's; published from 1 nm steps, here 5 nm.
TEST_CASE("illuminant A", "[moods][published]") {
  const Chromaticity a = black_body(2848 * 1.4388 / 1.4350);
  CHECK(a.x == Approx(0.44758).margin(1.5e-5));
  CHECK(a.y == Approx(0.40745).margin(1.5e-5));
}

// The same sum over the same observer, evaluated by another program; half of the last digit given and its rounding.
TEST_CASE("black bodies from candle light to daylight", "[moods][reference]") {
  struct Row {
    double kelvin, x, y, u, v;
  };
  const auto row = GENERATE(values<Row>({{1800, 0.549248, 0.408224, 0.323078, 0.360188},
                                         {2200, 0.505629, 0.415208, 0.290123, 0.357361},
                                         {2700, 0.459862, 0.410600, 0.262498, 0.351567},
                                         {3000, 0.436934, 0.404075, 0.250570, 0.347590},
                                         {3500, 0.405306, 0.390717, 0.235712, 0.340841},
                                         {4000, 0.380442, 0.376748, 0.225110, 0.334387},
                                         {5000, 0.345103, 0.351609, 0.211424, 0.323116},
                                         {6500, 0.313527, 0.323629, 0.200449, 0.310361}}));
  const Chromaticity xy = black_body(row.kelvin);
  CHECK(xy.x == Approx(row.x).margin(6e-7));
  CHECK(xy.y == Approx(row.y).margin(6e-7));
  CHECK(uv(xy).x() == Approx(row.u).margin(6e-7));
  CHECK(uv(xy).y() == Approx(row.v).margin(6e-7));
}

// CIE 15:2018: u' = 0.1978, v' = 0.4683 of D65.
TEST_CASE("even coordinates of D65", "[moods][published]") {
  CHECK(uniform_coordinates(k_d65).x() == Approx(0.1978).margin(5e-5));
  CHECK(uniform_coordinates(k_d65).y() == Approx(0.4683).margin(5e-5));
}

// The CIE's daylights, from memory: D50 is at 5003 K, D65 at 6504 K, both 0.0032 above the black body. Their published
// chromaticities have five digits, which leave a kelvin open.
TEST_CASE("temperature of daylights", "[moods][published]") {
  const auto d50 = white_tone({0.34567, 0.35850});
  const auto d65 = white_tone({0.31272, 0.32903});
  REQUIRE(d50);
  REQUIRE(d65);
  CHECK(d50->kelvin == Approx(5003).margin(1.5));
  CHECK(d65->kelvin == Approx(6504).margin(1.5));
  CHECK(d65->duv == Approx(0.0032).margin(5e-5));
  CHECK(d50->duv == Approx(0.0032).margin(5e-5));
}

// C. S. McCamy, "Correlated color temperature as an explicit function of chromaticity coordinates", Color Research and
// Application 17 (1992): a cubic that is within 3.5 K of black bodies from 2200 K to 5000 K.
TEST_CASE("temperature by a published cubic", "[moods][formula]") {
  const double kelvin = GENERATE(2200.0, 2700.0, 3000.0, 3500.0, 4000.0, 5000.0);
  const Chromaticity xy = black_body(kelvin);
  const double n = (xy.x - 0.3320) / (0.1858 - xy.y);
  const double cubic = 437 * n * n * n + 3601 * n * n + 6861 * n + 5517;
  const auto tone = white_tone(xy);
  REQUIRE(tone);
  CHECK(tone->kelvin == Approx(cubic).margin(3.5));
}

// Rounding of u, v (1e-16) over what they change in a kelvin at 20 000 K (1e-7), with room to spare.
TEST_CASE("a tone is found again from its colour", "[moods][property]") {
  std::mt19937_64 random(3);
  std::uniform_real_distribution<double> unit(0, 1);
  for (int i = 0; i < 300; ++i) {
    const double kelvin = 1e6 / (50 + 550 * unit(random));
    const double duv = 0.06 * unit(random) - 0.03;
    const auto tone = white_tone(chromaticity_of(WhiteTone{kelvin, duv}));
    REQUIRE(tone);
    CHECK(tone->kelvin == Approx(kelvin).epsilon(1e-8));
    CHECK(tone->duv == Approx(duv).margin(1e-12));
  }
}

TEST_CASE("no black body is nearer than that of the tone", "[moods][property]") {
  std::vector<Vector2d> line;
  for (double mired = 40; mired <= 1000; mired += 0.5) line.push_back(uv(black_body(1e6 / mired)));
  std::mt19937_64 random(4);
  std::uniform_real_distribution<double> unit(0, 1);
  int white = 0;
  for (int i = 0; i < 300; ++i) {
    const Chromaticity xy{0.25 + 0.35 * unit(random), 0.25 + 0.2 * unit(random)};
    double nearest = 1;
    for (const Vector2d& point : line) nearest = std::min(nearest, (point - uv(xy)).norm());
    const auto tone = white_tone(xy);
    if (!tone) {
      // Too far off, or nearest to an end of the line.
      const double to_ends = std::min((line.front() - uv(xy)).norm(), (line.back() - uv(xy)).norm());
      CHECK((nearest > k_white_within_duv - 1e-6 || to_ends == nearest));
      continue;
    }
    ++white;
    CHECK(std::abs(tone->duv) <= nearest + 1e-15);
    CHECK(std::abs(tone->duv) == Approx((uv(black_body(tone->kelvin)) - uv(xy)).norm()).margin(1e-12));
    CHECK((tone->duv > 0) == (uv(xy).y() > uv(black_body(tone->kelvin)).y()));
  }
  CHECK(white > 100);
}

TEST_CASE("coloured light has no temperature, nor has what is cooler or hotter than the line", "[moods][exact]") {
  CHECK_FALSE(white_tone({0.64, 0.33}));
  CHECK_FALSE(white_tone({0.30, 0.60}));
  CHECK_FALSE(white_tone({0.15, 0.06}));
  CHECK_FALSE(white_tone(black_body(990)));
  CHECK_FALSE(white_tone(black_body(25'500)));
  CHECK(white_tone(black_body(k_coolest_black_body_kelvin)));
  CHECK(white_tone(black_body(k_hottest_black_body_kelvin)));
}

TEST_CASE("light mixed with its own colour keeps it", "[moods][exact]") {
  const Chromaticity warm = black_body(2700);
  const auto mixed = mixed_light(std::array{ColouredLight{200, warm}, ColouredLight{650, warm}});
  REQUIRE(mixed);
  CHECK(mixed->lumens == Approx(850));
  CHECK(mixed->chromaticity.x == Approx(warm.x).epsilon(1e-14));  // a few roundings
  CHECK(mixed->chromaticity.y == Approx(warm.y).epsilon(1e-14));
  REQUIRE(mixed->tone);
  CHECK(mixed->tone->kelvin == Approx(2700).epsilon(1e-9));
  CHECK(mixed->tone->duv == Approx(0).margin(1e-12));
}

// Grassmann: X + Y + Z is Y / y, by which chromaticities are weighted: the centre of gravity, from plain sums.
TEST_CASE("two lights mix on the straight line between them", "[moods][exact]") {
  const Chromaticity warm = black_body(2700);
  const Chromaticity cool = black_body(4000);
  const auto mixed = mixed_light(std::array{ColouredLight{300, warm}, ColouredLight{500, cool}});
  REQUIRE(mixed);
  const double of_warm = 300 / warm.y;
  const double of_cool = 500 / cool.y;
  const double sum = of_warm + of_cool;
  CHECK(mixed->chromaticity.x == Approx((of_warm * warm.x + of_cool * cool.x) / sum).epsilon(1e-14));
  CHECK(mixed->chromaticity.y == Approx((of_warm * warm.y + of_cool * cool.y) / sum).epsilon(1e-14));
  REQUIRE(mixed->tone);
  CHECK(mixed->tone->kelvin > 2700);
  CHECK(mixed->tone->kelvin < 4000);
  CHECK(mixed->tone->duv < 0);  // the line of black bodies bends upward
}

TEST_CASE("a mixture turns neither on the order of lights nor on how bright all are", "[moods][property]") {
  std::mt19937_64 random(5);
  std::uniform_real_distribution<double> unit(0, 1);
  for (int i = 0; i < 50; ++i) {
    std::vector<ColouredLight> lights;
    for (int k = 0; k < 4; ++k) lights.push_back({1000 * unit(random), black_body(1800 + 4000 * unit(random))});
    const auto mixed = mixed_light(lights);
    std::ranges::reverse(lights);
    for (ColouredLight& light : lights) light.lumens *= 0.1;
    const auto dimmed = mixed_light(lights);
    REQUIRE(mixed);
    REQUIRE(dimmed);
    CHECK(dimmed->lumens == Approx(0.1 * mixed->lumens).epsilon(1e-14));
    CHECK(dimmed->chromaticity.x == Approx(mixed->chromaticity.x).epsilon(1e-14));
    CHECK(dimmed->chromaticity.y == Approx(mixed->chromaticity.y).epsilon(1e-14));
  }
}

TEST_CASE("the dark has no colour", "[moods][exact]") {
  CHECK_FALSE(mixed_light({}));
  CHECK_FALSE(mixed_light(std::array{ColouredLight{0, black_body(3000)}}));
  const auto one_off = mixed_light(std::array{ColouredLight{0, black_body(3000)}, ColouredLight{5, black_body(4000)}});
  REQUIRE(one_off);
  CHECK(one_off->chromaticity.x == Approx(black_body(4000).x).epsilon(1e-14));
}
