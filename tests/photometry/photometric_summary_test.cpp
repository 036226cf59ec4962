#include "evenlit/photometry/photometric_summary.hpp"

#include <catch2/catch.hpp>

#include "sample_tables.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

PhotometricFile cosine_file() {
  PhotometricFile file;
  file.distribution = cosine_power_table(1, 0.5);
  file.opening = {Opening::Shape::disc, 0.15, 0.15, 0};
  file.lamp_sets[0].watts = 40;
  return file;
}

}  // namespace

TEST_CASE("photometric summary of a cosine emitter", "[photometry][formula]") {
  const auto summary = photometric_summary(cosine_file());
  // pi 1000 lm; chords of half a degree hold less by at most (0.5 deg)^2 / 8 of it, 1e-5.
  CHECK(summary.lumens == Approx(std::numbers::pi * 1000).epsilon(1e-5));
  CHECK(summary.efficacy_lm_w.value() == Approx(std::numbers::pi * 25).epsilon(1e-5));
  CHECK(summary.peak.candela == 1000);
  CHECK(summary.centre_beam_cd == 1000);
  // The same chords, over the slope of the curve at the crossing: 1e-5 / (pi / 180 sin 60), and the flatter sin 84.
  CHECK(summary.along.beam_deg.value() == Approx(120).epsilon(0).margin(2e-3));
  CHECK(summary.along.field_deg.value() == Approx(168.522).epsilon(0).margin(2e-3));
  CHECK(summary.across.cie_beam_deg == summary.along.beam_deg);
  CHECK(summary.spacing->along == Approx(1.287).epsilon(0).margin(6e-4));
  CHECK_FALSE(summary.lamp_lumens.has_value());
  CHECK_FALSE(summary.light_output_ratio.has_value());
  CHECK_FALSE(summary.zones.zones[0].lamp_share.has_value());
  CHECK(summary.luminance.has_value());

  REQUIRE(summary.cone_feet.size() == 6);
  CHECK(summary.cone_feet[0].distance_m == Approx(4 * 0.3048).epsilon(1e-15));
  CHECK(summary.cone_feet[5].distance_m == Approx(14 * 0.3048).epsilon(1e-15));
  REQUIRE(summary.cone_metres.size() == 7);
  CHECK(summary.cone_metres[1].distance_m == 1.5);
}

TEST_CASE("photometric summary: relative photometry has an efficiency, and shares of the lamps",
          "[photometry][exact]") {
  auto file = cosine_file();
  const auto absolute = photometric_summary(file);
  file.lamp_sets[0].lumens = 2 * absolute.lumens;
  const auto relative = photometric_summary(file);
  CHECK(relative.light_output_ratio == 0.5);
  CHECK(relative.zones.zones[3].lamp_share.value() ==
        Approx(absolute.zones.zones[3].luminaire_share / 2).epsilon(1e-12));
  CHECK((relative.utilization.coefficient == absolute.utilization.coefficient / 2).all());
}

TEST_CASE("photometric summary: the tilt factor of a luminaire aimed down is in every figure",
          "[photometry][property]") {
  const auto without = photometric_summary(cosine_file());
  auto file = cosine_file();
  file.tilt = TiltData{1, {0, 90}, {0.5, 0.1}};
  const auto with = photometric_summary(file);
  CHECK(with.tilt_factor == 0.5);
  CHECK(with.lumens == without.lumens / 2);
  CHECK(with.peak.candela == 500);
  CHECK(with.centre_beam_cd == 500);
  CHECK(with.cone_metres[2].centre_lx == without.cone_metres[2].centre_lx / 2);
  CHECK((with.luminance->cd_m2 == without.luminance->cd_m2 / 2).all());
  CHECK(with.along.beam_deg == without.along.beam_deg);
  CHECK(with.spacing->along == without.spacing->along);
}

TEST_CASE("photometric summary: turning the luminaire swaps along and across", "[photometry][property]") {
  std::mt19937 random(12);
  PhotometricFile file;
  file.distribution = random_table(random);
  file.distribution.candela.bottomRows(2) = 1;
  const auto before = photometric_summary(file);
  const auto after = photometric_summary(turned(file, 1));
  // Turning interpolates and moves planes: rounding.
  CHECK(after.lumens == Approx(before.lumens).epsilon(1e-12));
  CHECK(after.along.field_deg.value() == Approx(before.across.field_deg.value()).epsilon(1e-11));
  CHECK(after.across.beam_deg.value() == Approx(before.along.beam_deg.value()).epsilon(1e-11));
  CHECK(after.cone_metres[0].along_m.has_value() == before.cone_metres[0].across_m.has_value());
}

TEST_CASE("photometric summary: a type B table has the figures of the same beam", "[photometry][property]") {
  auto file = cosine_file();
  const auto c = photometric_summary(file);
  file.distribution = cosine_power_type_b(1);
  const auto b = photometric_summary(file);
  // Chords of a degree, 4e-5 of the peak, over the slope of the curve at the crossing (0.015 a degree).
  CHECK(b.lumens == Approx(c.lumens).epsilon(1e-4));
  CHECK(b.zones.groups.back().lumens == Approx(b.lumens).epsilon(1e-4));
  CHECK(b.along.beam_deg.value() == Approx(c.along.beam_deg.value()).epsilon(0).margin(0.012));
  CHECK(b.across.field_deg.value() == Approx(c.across.field_deg.value()).epsilon(0).margin(0.012));
  CHECK(b.spacing->diagonal == Approx(c.spacing->diagonal).epsilon(1e-3));
}
