#include "evenlit/photometry/zonal_cavity.hpp"

#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace evenlit;

namespace {

/// The luminaire of the worked example: mid-zone candela 560 520 430 290 130 40 12 4 1.
ZonalFlux worked_luminaire() {
  return {.down = {53.4552, 147.4027, 199.0319, 182.1777, 100.6779, 35.8864, 11.9114, 4.2316, 1.0911}, .up = 0};
}

}  // namespace

// CIE S 017:2020, term 17-29-072, and 5 x 6 x (12 + 10) / (12 x 10) = 5.5 from a utility's tutorial.
TEST_CASE("room cavity ratio", "[photometry][published]") {
  CHECK(cavity_ratio(6, 2 * (12 + 10), 12 * 10) == Approx(5.5).epsilon(1e-12));
}

// Percent effective cavity reflectance as tabulated in the IES Lighting Handbook (open reproduction). The equation is
// the handbook's; its table was fitted and rounded: 1.1 points away at most, 2.2 in the 70/30 and 50/30 columns.
TEST_CASE("effective cavity reflectance agrees with the handbook's table", "[photometry][published]") {
  struct Case {
    double ratio, base, wall, percent, margin;
  };
  const auto c = GENERATE(values<Case>({{0.2, 0.9, 0.9, 89, 1.1},
                                        {0.2, 0.8, 0.5, 77, 1.1},
                                        {0.2, 0.3, 0.1, 28, 1.1},
                                        {0.4, 0.8, 0.7, 76, 1.1},
                                        {0.6, 0.9, 0.5, 80, 1.1},
                                        {0.6, 0.7, 0.3, 59, 2.2},
                                        {1.0, 0.8, 0.5, 67, 1.1},
                                        {1.0, 0.7, 0.5, 58, 1.1},
                                        {1.0, 0.5, 0.3, 38, 2.2},
                                        {1.0, 0.3, 0.3, 24, 1.1},
                                        {2.0, 0.9, 0.7, 72, 1.1},
                                        {2.0, 0.8, 0.3, 48, 1.1},
                                        {2.0, 0.1, 0.5, 13, 1.1},
                                        {3.0, 0.8, 0.5, 47, 1.1},
                                        {3.0, 0.7, 0.7, 52, 1.1},
                                        {3.0, 0.3, 0.1, 12, 1.1},
                                        {3.0, 0.1, 0.1, 5, 1.1}}));
  CAPTURE(c.ratio, c.base, c.wall);
  CHECK(100 * effective_cavity_reflectance(c.ratio, c.base, c.wall) == Approx(c.percent).margin(c.margin).epsilon(0));
  CHECK(effective_cavity_reflectance(0, c.base, c.wall) == c.base);
}

// The worked example evaluated twice, from the closed coefficients C1, C2, C3 and from three surfaces.
TEST_CASE("zonal-cavity worked example: 14 x 12 x 8 ft, six cans", "[photometry][formula]") {
  const double room = cavity_ratio(5.5, 2 * (14 + 12), 14 * 12);
  const double floor = effective_cavity_reflectance(cavity_ratio(2.5, 52, 168), 0.2, 0.5);
  CHECK(room == Approx(4.255952).epsilon(1e-6));
  CHECK(floor == Approx(0.184604).epsilon(1e-5));
  const double cu = coefficient_of_utilization(worked_luminaire(), room, {0.8, 0.5, floor});
  CHECK(cu == Approx(0.824357).epsilon(2e-6));
  CHECK(coefficient_of_utilization(worked_luminaire(), room, {0.8, 0.5, 0.2}) == Approx(0.829664).epsilon(2e-6));
  CHECK(6 * 735.8659 * cu / 168 == Approx(21.664866).epsilon(2e-6));  // fc, initial
}

// The same luminaire over room cavity ratios and reflectances (floor 20 %; black room: all 0).
TEST_CASE("coefficients of utilization over rooms and finishes", "[photometry][formula]") {
  struct Case {
    double ratio;
    std::array<double, 7> cu;
  };
  const auto c = GENERATE(values<Case>({{0, {1.1905, 1.1905, 1.1905, 1.1628, 1.1111, 1.1111, 1.0000}},
                                        {1, {1.1258, 1.0941, 1.0658, 1.0723, 1.0314, 1.0108, 0.9159}},
                                        {3, {0.9948, 0.9206, 0.8631, 0.9062, 0.8791, 0.8342, 0.7550}},
                                        {5, {0.8778, 0.7817, 0.7146, 0.7718, 0.7529, 0.6979, 0.6271}},
                                        {10, {0.6554, 0.5465, 0.4813, 0.5419, 0.5330, 0.4755, 0.4185}}}));
  constexpr std::array<CavityFinishes, 7> k_finishes{{{0.8, 0.7, 0.2},
                                                      {0.8, 0.5, 0.2},
                                                      {0.8, 0.3, 0.2},
                                                      {0.7, 0.5, 0.2},
                                                      {0.5, 0.5, 0.2},
                                                      {0.5, 0.3, 0.2},
                                                      {0, 0, 0}}};
  for (std::size_t i = 0; i < k_finishes.size(); ++i) {
    CAPTURE(c.ratio, i);
    CHECK(coefficient_of_utilization(worked_luminaire(), c.ratio, k_finishes[i]) ==
          Approx(c.cu[i]).margin(0.6e-4).epsilon(0));  // four printed decimals
  }
}

TEST_CASE("light sent up helps by way of the ceiling alone", "[photometry][formula]") {
  // At room cavity ratio 0: (down + rho_c up) / (1 - rho_c rho_f); handbook's pendant sphere, 45 % down, 35.5 % up of
  // the lamp lumens, prints .87 .81 .70 .59 (from memory).
  ZonalFlux sphere;
  sphere.down[4] = 45;
  sphere.up = 35.5;
  const double of_luminaire = coefficient_of_utilization(sphere, 0, {0.8, 0.5, 0.2});
  CHECK(of_luminaire * 0.805 == Approx(0.8738).margin(1e-4));
}

TEST_CASE("no light, no utilization", "[photometry][exact]") { CHECK(coefficient_of_utilization({}, 3, {}) == 0); }
