#include "evenlit/moods/dimming.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace evenlit;

namespace {

class RandomCurves {
 public:
  explicit RandomCurves(unsigned seed) : random_(seed) {}

  double between(double least, double most) { return std::uniform_real_distribution(least, most)(random_); }

  RisingTable table() {
    RisingTable table{{0, between(0, 0.2)}};
    for (auto points = random_() % 8; points > 0; --points) {
      const auto& [at, value] = table.back();
      table.push_back({between(at + 1e-3, at + 0.1), random_() % 3 == 0 ? value : between(value, 1)});
    }
    table.push_back({1, 1});
    return table;
  }

  DimmingCurve curve() {
    if (random_() % 2 == 0) return table();
    return static_cast<CurveLaw>(random_() % 3);
  }

  Dimmer dimmer() {
    Dimmer dimmer{.curve = curve(), .low_end = between(0, 0.3), .high_end = between(0.5, 1)};
    if (random_() % 2 == 0) dimmer.cut_off = between(0, 0.3);
    return dimmer;
  }

  Driver driver() { return {.least = between(0, 0.2), .curve = curve()}; }

 private:
  std::mt19937_64 random_;
};

}  // namespace

TEST_CASE("dimming curves: the logarithmic one has the values of its levels", "[moods][published]") {
  // IEC 62386-102, levels of 254, in percent as lists of it print them: three decimals.
  const auto [level, percent] = GENERATE(table<double, double>(
      {{1, 0.100}, {10, 0.128}, {85, 0.991}, {100, 1.492}, {128, 3.206}, {150, 5.845}, {200, 22.892}, {254, 100}}));
  CHECK(100 * curve_output(CurveLaw::logarithmic, level / 254) == Approx(percent).margin(0.0005));
}

TEST_CASE("dimming curves: a step of the logarithmic one is 2.768 percent", "[moods][formula]") {
  // 10^(3/253), IEC 62386-102; six digits printed.
  const double step =
      curve_output(CurveLaw::logarithmic, 101.0 / 254) / curve_output(CurveLaw::logarithmic, 100.0 / 254);
  CHECK(step == Approx(1.027680).margin(5e-7));
}

TEST_CASE("dimming curves: linear and square", "[moods][published]") {
  // IEC 62386-207: the lowest of 254 steps is 0.39 %, as lists print it. Rounding only for the square law.
  CHECK(100 * curve_output(CurveLaw::linear, 1.0 / 254) == Approx(0.393701).margin(5e-7));
  CHECK(curve_output(CurveLaw::square, 0.75) == 0.5625);
  CHECK(curve_output(CurveLaw::square, 0.5) == 0.25);
  CHECK(curve_output(CurveLaw::square, 0.1) == Approx(0.01).epsilon(1e-15));
}

TEST_CASE("dimming curves: a square dimmer into a square driver gives the fourth power", "[moods][exact]") {
  const Dimmer dimmer{.curve = CurveLaw::square};
  const Driver driver{.curve = CurveLaw::square};
  CHECK(dimmed_light(dimmer, driver, 0.5) == 0.0625);
}

TEST_CASE("rising tables: they pass through their points and keep the line between points on a line",
          "[moods][exact]") {
  const RisingTable line{{0, 0.1}, {0.2, 0.28}, {0.7, 0.73}, {1, 1}};
  for (const double at : {0.0, 0.1, 0.2, 0.45, 0.7, 0.99, 1.0}) {
    CHECK(table_value(line, at) == Approx(0.1 + 0.9 * at).epsilon(1e-14));  // rounding
  }
  const RisingTable bent{{0.1, 0}, {0.5, 0.2}, {0.9, 0.8}};
  for (const auto& [at, value] : bent) CHECK(table_value(bent, at) == value);
  CHECK(table_value(bent, 0) == 0);
  CHECK(table_value(bent, 1) == 0.8);
}

TEST_CASE("rising tables: no value leaves those of the points beside it", "[moods][published]") {
  // The data with sharp bends that Fritsch and Carlson (1980) show a plain cubic spline to overshoot on (from memory).
  const RisingTable bends{{7.99, 0},      {8.09, 2.76429e-5}, {8.19, 4.37498e-2}, {8.7, 0.169183}, {9.2, 0.469428},
                          {10, 0.943740}, {12, 0.998636},     {15, 0.999919},     {20, 0.999994}};
  double before = 0;
  for (int i = 0; i <= 4000; ++i) {
    const double value = table_value(bends, 7.99 + 12.01 * i / 4000);
    CHECK(value >= before);
    CHECK(value <= 0.999994);
    before = value;
  }
}

TEST_CASE("dimming: light never falls with the setting, and stays between 0 and 1", "[moods][property]") {
  RandomCurves random(20240601);
  for (int i = 0; i < 300; ++i) {
    const Dimmer dimmer = random.dimmer();
    const Driver driver = random.driver();
    double before = 0;
    for (int step = 0; step <= 500; ++step) {
      const double light = dimmed_light(dimmer, driver, step / 500.0);
      REQUIRE(light >= before);
      REQUIRE(light <= 1);
      before = light;
    }
  }
}

TEST_CASE("dimming curves: they do not leap", "[moods][property]") {
  RandomCurves random(20240602);
  for (int i = 0; i < 300; ++i) {
    const DimmingCurve curve = random.curve();
    // Points of a table are 1e-3 or more apart, so no slope is above 3 / 1e-3; the logarithmic curve's is
    // ln(10) x 254 / (253 / 3) = 6.9.
    constexpr double k_step = 1e-7;
    for (int step = 0; step < 200; ++step) {
      const double at = random.between(0, 1 - k_step);
      REQUIRE(curve_output(curve, at + k_step) - curve_output(curve, at) <= 3e3 * k_step);
    }
  }
}

TEST_CASE("dimming: the setting for the light of a setting gives that light", "[moods][property]") {
  RandomCurves random(20240603);
  for (int i = 0; i < 300; ++i) {
    const Dimmer dimmer = random.dimmer();
    const Driver driver = random.driver();
    const auto light = [&](double setting) { return dimmed_light(dimmer, driver, setting); };
    for (int step = 0; step < 20; ++step) {
      const double setting = random.between(0, 1);
      const auto found = setting_for(light, light(setting));
      REQUIRE(found);
      // To the tolerance that setting_for promises.
      REQUIRE(light(*found) == Approx(light(setting)).margin(1e-9));
      if (light(setting) > 0) REQUIRE(*found >= setting - 1e-6);  // the highest of equals; light may rise slowly
    }
  }
}

TEST_CASE("dimming: settings of the logarithmic curve for round levels", "[moods][formula]") {
  // n = 1 + (253 / 3) (log10 X + 1), X in percent, the inverse of the curve of IEC 62386-102; four decimals printed.
  const auto [percent, level] =
      GENERATE(table<double, double>({{1, 85.3333}, {5, 144.2798}, {10, 169.6667}, {25, 203.2263}, {50, 228.6131}}));
  const auto setting = setting_for([](double at) { return curve_output(CurveLaw::logarithmic, at); }, percent / 100);
  REQUIRE(setting);
  CHECK(254 * *setting == Approx(level).margin(1e-4));
}

TEST_CASE("dimming: trims and cut-off", "[moods][exact]") {
  const Dimmer dimmer{.curve = CurveLaw::linear, .low_end = 0.2, .high_end = 0.9, .cut_off = 0.05};
  // Rounding only.
  CHECK(dimmer_output(dimmer, 1) == Approx(0.9).epsilon(1e-15));
  CHECK(dimmer_output(dimmer, 0.5) == Approx(0.55).epsilon(1e-15));
  CHECK(dimmer_output(dimmer, 0.05) == Approx(0.235).epsilon(1e-15));
  CHECK(dimmer_output(dimmer, 0.04) == 0);
  CHECK(dimmer_output(Dimmer{.low_end = 0.2}, 0) == 0);
}

TEST_CASE("dimming: light that no setting gives has none", "[moods][exact]") {
  const Dimmer dimmer{.curve = CurveLaw::linear, .low_end = 0.2, .high_end = 0.9};
  const auto light = [&](double setting) { return dimmed_light(dimmer, Driver{.least = 0.3}, setting); };
  CHECK_FALSE(setting_for(light, 0.15));
  CHECK_FALSE(setting_for(light, 0.95));
  CHECK(setting_for(light, 0) == 0.0);
  CHECK(setting_for(light, 0.9) == 1.0);
  // (0.55 - 0.2) / 0.7 = 0.5; the driver holds its least up to (0.3 - 0.2) / 0.7. The tolerance of the light over the
  // slope of 0.7.
  CHECK(setting_for(light, 0.55).value() == Approx(0.5).margin(2e-9));
  CHECK(setting_for(light, 0.3).value() == Approx(1.0 / 7).margin(2e-9));
}

TEST_CASE("dimming: the nearest light on both sides of a leap", "[moods][exact]") {
  const Dimmer dimmer{.cut_off = 0.25};
  const auto light = [&](double setting) { return dimmed_light(dimmer, Driver{}, setting); };
  const auto [below, above] = setting_search(light, 0.1);
  CHECK(light(below) == 0);
  CHECK(light(above) == Approx(0.25).margin(1e-15));  // as far as halving goes
  CHECK(setting_for(light, 0.25).value() == Approx(0.25).margin(2e-9));
}

TEST_CASE("perceived brightness: the square law", "[moods][published]") {
  // IES Lighting Handbook, 9th ed. 2000 (from memory): 1 % looks like 10 %, 10 % like 32 %, 25 % like 50 %.
  CHECK(perceived_brightness(0.01) == Approx(0.10).margin(0.005));
  CHECK(perceived_brightness(0.10) == Approx(0.32).margin(0.005));
  CHECK(perceived_brightness(0.25) == 0.5);
}

TEST_CASE("lightness: CIE 1976", "[moods][formula]") {
  // CIE 15 (CIE S 017:2020, 17-23-076) evaluated, six decimals printed; both sides of the bend and the bend itself.
  const auto [ratio, expected] = GENERATE(table<double, double>({{0, 0},
                                                                 {0.001, 0.903296},
                                                                 {216.0 / 24389, 8},
                                                                 {0.01, 8.991442},
                                                                 {0.1, 37.842430},
                                                                 {0.1841865, 50},
                                                                 {0.5, 76.069261},
                                                                 {1, 100}}));
  CHECK(lightness(ratio) == Approx(expected).margin(1e-6));
}

TEST_CASE("power: by the driver's table, and by default a tenth for the driver", "[moods][exact]") {
  const Driver table{.power = {{0, 0.02}, {0.5, 0.51}, {1, 1}}};
  CHECK(power_share(table, 0) == 0.02);
  CHECK(power_share(table, 0.25) == Approx(0.265).epsilon(1e-14));  // on a line
  CHECK(power_share(table, 1) == 1);
  const Driver without_off{.power = {{0.01, 0.1}, {1, 1}}};
  CHECK(power_share(without_off, 0) == 0);
  CHECK(power_share(without_off, 0.001) == 0.1);
  // Common practice, no source.
  CHECK(power_share(Driver{}, 0) == 0);
  CHECK(power_share(Driver{}, 0.5) == Approx(0.55).epsilon(1e-15));
  CHECK(power_share(Driver{}, 1) == 1);
}
