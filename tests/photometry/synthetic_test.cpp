#include "evenlit/photometry/synthetic.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "evenlit/photometry/beam.hpp"

using namespace evenlit;

namespace {

constexpr double k_beams_deg[] = {5, 10, 25, 40, 60, 90, 120, 135, 150};

double cosine_power(double gamma_deg, double n) {
  return std::pow(std::max(0.0, std::cos(gamma_deg * std::numbers::pi / 180)), n);
}

double exponent(double beam_angle_deg) {
  return std::log(0.5) / std::log(std::cos(beam_angle_deg / 2 * std::numbers::pi / 180));
}

}  // namespace

TEST_CASE("cosine-power beam: the table holds the lumens that were asked for", "[photometry][exact]") {
  for (const double beam_deg : k_beams_deg) {
    CAPTURE(beam_deg);
    // One scaling by a sum over a few hundred intervals.
    CHECK(lumens(cosine_power_beam(750, beam_deg)) == Approx(750).epsilon(1e-13));
  }
}

TEST_CASE("cosine-power beam: the table's own beam angle is the one asked for", "[photometry][exact]") {
  for (const double beam_deg : k_beams_deg) {
    CAPTURE(beam_deg);
    // The crossing is a knot; only the rounding of I0/2 moves it.
    CHECK(spread_angle_deg(cosine_power_beam(750, beam_deg), 0.5).value() == Approx(beam_deg).epsilon(1e-9));
  }
}

TEST_CASE("cosine-power beam: the table stays near the formula", "[photometry][formula]") {
  for (const double beam_deg : k_beams_deg) {
    CAPTURE(beam_deg);
    const auto table = cosine_power_beam(1000, beam_deg);
    const double n = exponent(beam_deg);
    const double peak_cd = (n + 1) * 1000 / (2 * std::numbers::pi);
    // The two bounds that the declaration states: 0.1 % for the peak, 0.0001 of the peak for the shape.
    CHECK(table.candela(0) == Approx(peak_cd).epsilon(1e-3));
    double deviation = 0;
    for (double gamma_deg = 0; gamma_deg <= 90; gamma_deg += 0.0137) {
      const double expected = table.candela(0) * cosine_power(gamma_deg, n);
      deviation = std::max(deviation, std::abs(intensity_at(table, gamma_deg, 0) - expected));
    }
    CHECK(deviation <= 1e-4 * table.candela(0));
  }
}

TEST_CASE("cosine-power beam: nothing at the horizontal and above", "[photometry][exact]") {
  const auto table = cosine_power_beam(1000, 120);
  CHECK(is_rotational(table));
  CHECK(table.gamma_deg.back() == 90);
  CHECK(intensity_at(table, 90, 0) == 0);
  CHECK(intensity_at(table, 120, 0) == 0);
}
