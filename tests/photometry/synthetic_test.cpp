#include "evenlit/photometry/synthetic.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "evenlit/photometry/beam.hpp"

using namespace evenlit;

namespace {

constexpr double k_beams_deg[] = {5, 10, 25, 40, 60, 90, 120, 135, 150};

IntensityDistribution made(const SyntheticBeam& beam) {
  const auto distribution = synthetic_beam(beam);
  INFO((distribution ? "" : text_of(distribution.error())));
  REQUIRE(distribution);
  return *distribution;
}

IntensityDistribution plain(double lumens, double beam_angle_deg) {
  return made({.lumens = lumens, .beam_angle_deg = beam_angle_deg});
}

std::string refusal(const SyntheticBeam& beam) {
  const auto distribution = synthetic_beam(beam, {.file = "room.toml", .line = 3, .column = 8});
  REQUIRE_FALSE(distribution);
  return text_of(distribution.error());
}

double cosine_power(double gamma_deg, double n) {
  return std::pow(std::max(0.0, std::cos(gamma_deg * std::numbers::pi / 180)), n);
}

double exponent(double beam_angle_deg) {
  return std::log(0.5) / std::log(std::cos(beam_angle_deg / 2 * std::numbers::pi / 180));
}

const SyntheticBeam k_kinds[] = {
    {.lumens = 900, .beam_angle_deg = 60},
    {.lumens = 900, .beam_angle_deg = 60, .field_angle_deg = 85},
    {.lumens = 500, .beam_angle_deg = 24, .field_angle_deg = 50},
    {.lumens = 700, .beam_angle_deg = 80, .field_angle_deg = 110, .cut_off_deg = 60},
    {.lumens = 400, .beam_angle_deg = 140, .cut_off_deg = 150},
    {.lumens = 400, .beam_angle_deg = 100, .batwing = Batwing{35, 0.6}},
    {.lumens = 400, .beam_angle_deg = 100, .field_angle_deg = 125, .cut_off_deg = 80, .batwing = Batwing{30, 0}},
};

}  // namespace

TEST_CASE("synthetic beam: the table holds the lumens that were asked for", "[photometry][exact]") {
  // One scaling by a sum over a few hundred intervals.
  for (const double beam_deg : k_beams_deg) CHECK(lumens(plain(750, beam_deg)) == Approx(750).epsilon(1e-13));
  for (const SyntheticBeam& beam : k_kinds) CHECK(lumens(made(beam)) == Approx(beam.lumens).epsilon(1e-13));
}

TEST_CASE("synthetic beam: the table's own angles are the ones asked for", "[photometry][exact]") {
  // The crossings are knots; only the rounding of I0/2 and I0/10 moves them.
  for (const double beam_deg : k_beams_deg) {
    CAPTURE(beam_deg);
    CHECK(spread_angle_deg(plain(750, beam_deg), 0.5).value() == Approx(beam_deg).epsilon(1e-9));
  }
  for (const SyntheticBeam& beam : k_kinds) {
    CAPTURE(beam.beam_angle_deg, beam.cut_off_deg);
    CHECK(spread_angle_deg(made(beam), 0.5).value() == Approx(beam.beam_angle_deg).epsilon(1e-9));
    if (beam.field_angle_deg) {
      CHECK(spread_angle_deg(made(beam), 0.1).value() == Approx(*beam.field_angle_deg).epsilon(1e-9));
    }
  }
}

TEST_CASE("synthetic beam: with a beam angle alone it is a power of the cosine", "[photometry][formula]") {
  for (const double beam_deg : k_beams_deg) {
    CAPTURE(beam_deg);
    const auto table = plain(1000, beam_deg);
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

TEST_CASE("synthetic beam: the field angle of a power of the cosine gives that power", "[photometry][exact]") {
  // cos^2: 90.000 and 143.130 degrees, from 2 acos(0.1^(1/2)).
  const double field_deg = 2 * std::acos(std::sqrt(0.1)) * 180 / std::numbers::pi;
  const auto table = made({.lumens = 800, .beam_angle_deg = 90, .field_angle_deg = field_deg});
  for (double gamma_deg = 0; gamma_deg < 90; gamma_deg += 1.7) {
    const double expected = table.candela(0) * cosine_power(gamma_deg, 2);
    CHECK(std::abs(intensity_at(table, gamma_deg, 0) - expected) <= 1e-4 * table.candela(0));
  }
}

TEST_CASE("synthetic beam: no light at the cut-off and beyond", "[photometry][exact]") {
  for (const SyntheticBeam& beam : k_kinds) {
    const auto table = made(beam);
    CHECK(is_rotational(table));
    CHECK(table.gamma_deg.back() == (beam.cut_off_deg <= 90 ? 90 : 180));
    for (const double beyond : {0.0, 0.01, 5.0, 20.0}) {
      CHECK(intensity_at(table, std::min(180.0, beam.cut_off_deg + beyond), 0) == 0);
    }
    CHECK(intensity_at(table, 0.9 * beam.cut_off_deg, 0) > 0);
  }
}

TEST_CASE("synthetic beam: one peak, without steps or corners", "[photometry][property]") {
  for (const SyntheticBeam& beam : k_kinds) {
    const auto table = made(beam);
    const double peak_cd = table.candela.maxCoeff();
    const double peak_deg = beam.batwing ? beam.batwing->peak_deg : 0;
    CAPTURE(beam.beam_angle_deg, beam.cut_off_deg);
    CHECK(intensity_at(table, peak_deg, 0) == Approx(peak_cd).epsilon(1e-12));
    if (beam.batwing) {
      CHECK(table.candela(0) == Approx(beam.batwing->centre_fraction * peak_cd).margin(1e-9));
    }
    for (double gamma_deg = 0.25; gamma_deg < beam.cut_off_deg; gamma_deg += 0.25) {
      const double step = intensity_at(table, gamma_deg, 0) - intensity_at(table, gamma_deg - 0.25, 0);
      CHECK((gamma_deg <= peak_deg ? step >= -1e-9 : step <= (gamma_deg - 0.25 < peak_deg ? peak_cd : 1e-9)));
      // No step: a quarter of a degree changes the intensity by less than the steepest of these beams does.
      CHECK(std::abs(step) <= 0.05 * peak_cd);
    }
  }
}

TEST_CASE("synthetic beam: what cannot be together is refused, with what can", "[photometry][exact]") {
  CHECK(refusal({.lumens = 0, .beam_angle_deg = 60}) ==
        "room.toml:3:8: lumens 0 are not above 0 and at most 10000000\n");
  CHECK(refusal({.lumens = 900, .beam_angle_deg = 3}) == "room.toml:3:8: beam angle 3 is outside 5 to 150\n");
  CHECK(refusal({.lumens = 900, .beam_angle_deg = 60, .field_angle_deg = 60}) ==
        "room.toml:3:8: field angle 60 does not go with a beam angle of 60\n"
        "hint: a smooth beam has a field angle of 61.8 to 121.2 there\n");
  CHECK(refusal({.lumens = 900, .beam_angle_deg = 60, .cut_off_deg = 25}) ==
        "room.toml:3:8: the light ends 25 degrees from straight down, before half the beam angle of 60\n"
        "hint: a cut-off above 30 fits\n");
  CHECK(refusal({.lumens = 900, .beam_angle_deg = 60, .batwing = Batwing{40, 0.5}}) ==
        "room.toml:3:8: the peak at 40 degrees is not inside the beam of 60\n"
        "hint: a peak at 28.5 or less fits\n");
  CHECK(refusal({.lumens = 900, .beam_angle_deg = 60, .batwing = Batwing{20, 1.5}}) ==
        "room.toml:3:8: intensity at the centre 1.5 is outside 0 to 1\n");
  // The limits that the hint names are accepted.
  for (const double field_deg : {61.8, 121.2}) {
    CHECK(synthetic_beam({.lumens = 900, .beam_angle_deg = 60, .field_angle_deg = field_deg}));
  }
}

TEST_CASE("synthetic beam: NaN and infinity are refused", "[photometry][exact]") {
  const double nan = std::nan("");
  CHECK_FALSE(synthetic_beam({.lumens = nan, .beam_angle_deg = 60}));
  CHECK_FALSE(synthetic_beam({.lumens = 1, .beam_angle_deg = nan}));
  CHECK_FALSE(synthetic_beam({.lumens = 1, .beam_angle_deg = 60, .field_angle_deg = nan}));
  CHECK_FALSE(synthetic_beam({.lumens = 1, .beam_angle_deg = 60, .cut_off_deg = nan}));
  CHECK_FALSE(synthetic_beam({.lumens = INFINITY, .beam_angle_deg = 60}));
}
