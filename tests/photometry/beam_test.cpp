#include "evenlit/photometry/beam.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace evenlit;

namespace {

IntensityDistribution cosine_power_table(double n, double step_deg) {
  const auto size = static_cast<Eigen::Index>(std::lround(90 / step_deg)) + 1;
  IntensityDistribution d{{}, {0}, Eigen::ArrayXXd(size, 1)};
  for (Eigen::Index i = 0; i < size; ++i) {
    d.gamma_deg.push_back(static_cast<double>(i) * step_deg);
    d.candela(i) = std::pow(std::cos(d.gamma_deg.back() * std::numbers::pi / 180), n);
  }
  return d;
}

}  // namespace

TEST_CASE("beam and field angle of cosine powers", "[photometry][formula]") {
  // ANSI/IES LS-1 definitions on cos^n: 2 acos(0.5^(1/n)) and 2 acos(0.1^(1/n)), printed to three decimals. A table in
  // steps of 0.05 degrees has chords within 4e-6 of the curve, worth 4e-4 degrees at the flattest crossing below.
  struct Case {
    double n, beam_deg, field_deg;
  };
  for (const auto& [n, beam_deg, field_deg] :
       {Case{1, 120.000, 168.522}, Case{2, 90.000, 143.130}, Case{10, 42.175, 74.816}}) {
    CAPTURE(n);
    const auto d = cosine_power_table(n, 0.05);
    CHECK(spread_angle_deg(d, 0.5).value() == Approx(beam_deg).epsilon(0).margin(9e-4));
    CHECK(spread_angle_deg(d, 0.1).value() == Approx(field_deg).epsilon(0).margin(9e-4));
  }
}

TEST_CASE("beam angle: linear between the knots, outermost crossing, relative to the maximum", "[photometry][exact]") {
  IntensityDistribution batwing{{0, 10, 20, 30, 40}, {0}, Eigen::ArrayXXd(5, 1)};
  batwing.candela << 40, 30, 100, 60, 20;  // half of 100 is crossed at 4, 12.9 and last at 32.5 degrees
  CHECK(spread_angle_deg(batwing, 0.5) == 65);
  CHECK(spread_angle_deg(batwing, 0.6) == 60);
}

TEST_CASE("beam angle: each plane has its own", "[photometry][exact]") {
  IntensityDistribution d{{0, 20, 40}, {0, 90, 180, 270, 360}, Eigen::ArrayXXd(3, 5)};
  d.candela << 100, 100, 100, 100, 100,  //
      60, 50, 40, 50, 60,                //
      0, 0, 0, 0, 0;
  const double toward_0 = 20 + 20.0 * 10 / 60;
  const double toward_180 = 20.0 * 50 / 60;
  // Sums of a few numbers below 100: rounding stays below 1e-13.
  CHECK(spread_angle_deg(d, 0.5).value() == Approx(toward_0 + toward_180).epsilon(1e-14));
  CHECK(spread_angle_deg(d, 0.5, 180).value() == Approx(toward_0 + toward_180).epsilon(1e-14));
  CHECK(spread_angle_deg(d, 0.5, 90) == 40);
}

TEST_CASE("beam angle: both edges of a beam thrown to one side lie on that side", "[photometry][exact]") {
  IntensityDistribution thrown{{0, 20, 40, 60}, {0, 180, 360}, Eigen::ArrayXXd(4, 3)};
  thrown.candela << 20, 20, 20,  //
      100, 10, 100,              //
      100, 0, 100,               //
      0, 0, 0;
  CHECK(spread_angle_deg(thrown, 0.5) == 50 - 7.5);
}

TEST_CASE("beam angle: not defined where the plane has no such directions", "[photometry][exact]") {
  IntensityDistribution cut_off{{0, 90}, {0}, Eigen::ArrayXXd(2, 1)};
  cut_off.candela << 100, 80;
  CHECK_FALSE(spread_angle_deg(cut_off, 0.5).has_value());
  CHECK(spread_angle_deg(cut_off, 0.9) == 90);

  IntensityDistribution dark{{0, 90}, {0}, Eigen::ArrayXXd::Zero(2, 1)};
  CHECK_FALSE(spread_angle_deg(dark, 0.5).has_value());

  IntensityDistribution one_sided{{0, 20, 40}, {0, 90, 180, 270, 360}, Eigen::ArrayXXd(3, 5)};
  one_sided.candela << 10, 10, 10, 10, 10,  //
      100, 20, 5, 20, 100,                  //
      0, 0, 0, 0, 0;
  CHECK_FALSE(spread_angle_deg(one_sided, 0.5, 90).has_value());
}
