#include "evenlit/photometry/beam.hpp"

#include <catch2/catch.hpp>

#include "sample_tables.hpp"

using namespace evenlit;
using namespace evenlit::testing;

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

TEST_CASE("CIE beam angle: half of the centre, which differs from half of the maximum", "[photometry][exact]") {
  IntensityDistribution batwing{{0, 10, 20, 30, 40}, {0}, Eigen::ArrayXXd(5, 1)};
  batwing.candela << 40, 30, 100, 60, 20;  // half of 40 is last reached at 40 degrees, half of 100 at 32.5
  CHECK(centre_beam_cd(batwing) == 40);
  CHECK(cie_beam_angle_deg(batwing) == 80);
  batwing.candela(4) = 21;  // the data end above half of 40
  CHECK_FALSE(cie_beam_angle_deg(batwing).has_value());
  batwing.candela(4) = 0;
  CHECK(cie_beam_angle_deg(batwing).value() == Approx(2 * (30 + 40.0 / 6)).epsilon(1e-14));  // rounding of a few terms

  // cos^n has its maximum at the centre: the two definitions agree to the last bit.
  const auto cosine = cosine_power_table(3, 1);
  CHECK(cie_beam_angle_deg(cosine) == spread_angle_deg(cosine, 0.5));
}

TEST_CASE("CIE beam angle: none without light at the centre", "[photometry][exact]") {
  IntensityDistribution ring{{0, 20, 40}, {0}, Eigen::ArrayXXd(3, 1)};
  ring.candela << 0, 100, 0;
  CHECK_FALSE(cie_beam_angle_deg(ring).has_value());
  CHECK(spread_angle_deg(ring, 0.5) == 60);
}

TEST_CASE("beam angle: a table around a horizontal axis has those of the same beam around the vertical",
          "[photometry][property]") {
  // With f = cos^n t, chords of a degree h deviate from the curve by f'' h^2 / 8 along the plane and by n f h^2 / 8
  // across it; over the slope f' that is the shift of an edge, of which there are two.
  constexpr double k_step = k_rad_per_deg;
  for (const double n : {1.0, 2.0, 10.0}) {
    const auto b = cosine_power_type_b(n);
    for (const double fraction : {0.5, 0.1}) {
      const double t = std::acos(std::pow(fraction, 1 / n));
      const double bend = std::abs(n * (n - 1) * std::pow(std::tan(t), 2) - n) + n;
      const double margin_deg = 2 * bend * k_step * k_step / 8 / (n * std::tan(t)) / k_rad_per_deg;
      for (const double c_deg : {0.0, 37.0, 90.0}) {
        CAPTURE(n, fraction, c_deg);
        CHECK(spread_angle_deg(b, fraction, c_deg).value() ==
              Approx(2 * t / k_rad_per_deg).epsilon(0).margin(margin_deg));
      }
    }
  }
}

TEST_CASE("beam angle: none where a table around a horizontal axis ends inside the beam", "[photometry][exact]") {
  auto b = cosine_power_type_b(1);
  b.c_deg.erase(b.c_deg.begin() + 121, b.c_deg.end());
  b.c_deg.erase(b.c_deg.begin(), b.c_deg.begin() + 60);  // 30 degrees to either side, where cos^1 is 0.87
  b.candela = b.candela.middleCols(60, 61).eval();
  CHECK_FALSE(spread_angle_deg(b, 0.5, 90).has_value());
  CHECK(spread_angle_deg(b, 0.5, 0).value() == Approx(120).epsilon(0).margin(0.012));  // chords as above
}

TEST_CASE("beam angle: none where the data do not reach straight down", "[photometry][exact]") {
  IntensityDistribution up{{90, 120, 180}, {0}, Eigen::ArrayXXd(3, 1)};
  up.candela << 0, 100, 0;
  CHECK(centre_beam_cd(up) == 0);
  CHECK_FALSE(spread_angle_deg(up, 0.5).has_value());
}

TEST_CASE("beam angle: turning by 90 degrees swaps the planes, scaling changes nothing", "[photometry][property]") {
  std::mt19937 random(4711);
  for (int round = 0; round < 10; ++round) {
    auto d = random_table(random);
    d.candela.bottomRows(2) = 1;  // so that the beam ends within the data
    const auto turned_d = turned(d, 1);
    for (const double c_deg : {0.0, 90.0, 180.0}) {
      // Turning interpolates one plane and moves the others: rounding, 1e-13 of an angle.
      CHECK(spread_angle_deg(turned_d, 0.5, c_deg + 90).value() ==
            Approx(spread_angle_deg(d, 0.5, c_deg).value()).epsilon(1e-11));
      CHECK(spread_angle_deg(scaled(d, 4), 0.5, c_deg) == spread_angle_deg(d, 0.5, c_deg));
    }
  }
}
