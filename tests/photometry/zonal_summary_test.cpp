#include "evenlit/photometry/zonal_summary.hpp"

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <catch2/catch.hpp>

#include "sample_tables.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

/// Flux between two vertical angles by quadrature of `intensity_at`, from knot to knot.
double lumens_by_quadrature(const IntensityDistribution& d, double from_deg, double to_deg) {
  using Rule = boost::math::quadrature::gauss_kronrod<double, 15>;
  std::vector<double> borders{from_deg};
  std::copy_if(d.gamma_deg.begin(), d.gamma_deg.end(), std::back_inserter(borders),
               [&](double deg) { return deg > from_deg && deg < to_deg; });
  borders.push_back(to_deg);
  double sum = 0;
  for (std::size_t i = 1; i < borders.size(); ++i) {
    for (std::size_t j = 1; j < d.c_deg.size(); ++j) {
      const auto ring = [&](double gamma_deg) {
        const auto at = [&](double c_deg) { return intensity_at(d, gamma_deg, c_deg); };
        return Rule::integrate(at, d.c_deg[j - 1], d.c_deg[j], 0) * std::sin(gamma_deg * k_rad_per_deg);
      };
      sum += Rule::integrate(ring, borders[i - 1], borders[i], 0);
    }
  }
  return sum * k_rad_per_deg * k_rad_per_deg;
}

}  // namespace

TEST_CASE("zonal summary of cosine powers", "[photometry][formula]") {
  // 2 pi 1000 (cos^(n+1) a - cos^(n+1) b) / (n + 1); the chords of 0.1 degrees hold less by at most n (0.1 deg)^2 / 8
  // of the peak, 4e-7 n, over 2 pi sr.
  for (const double n : {1.0, 2.0, 10.0}) {
    const auto summary = zonal_summary(cosine_power_table(n, 0.1));
    for (const Zone& zone : summary.zones) {
      CAPTURE(n, zone.from_deg);
      const double expected = 2 * std::numbers::pi * 1000 / (n + 1) *
                              (cosine_power(zone.from_deg, n + 1) - cosine_power(zone.to_deg, n + 1));
      CHECK(zone.lumens == Approx(expected).epsilon(0).margin(4e-7 * n * 2 * std::numbers::pi * 1000));
    }
  }
}

TEST_CASE("zonal summary: zones of a constant intensity are zonal constants, above as below",
          "[photometry][published]") {
  // 2 pi (cos a - cos b) to five printed decimals.
  constexpr std::array k_constants_sr{0.09546, 0.28347, 0.46286, 0.62820, 0.77445, 0.89716, 0.99262, 1.05791, 1.09106};
  const auto summary = zonal_summary({{0, 180}, {0}, Eigen::ArrayXXd::Ones(2, 1)});
  for (std::size_t i = 0; i < 9; ++i) {
    CHECK(summary.zones[i].lumens == Approx(k_constants_sr[i]).epsilon(0).margin(5.1e-6));
    CHECK(summary.zones[17 - i].lumens == Approx(summary.zones[i].lumens).epsilon(1e-13));
  }
}

TEST_CASE("zonal summary: agrees with quadrature over random tables", "[photometry][reference]") {
  // 15-point Gauss-Kronrod is exact to rounding on a linear function times a sine over one cell.
  std::mt19937 random(31);
  for (int round = 0; round < 5; ++round) {
    const auto d = random_table(random);
    const auto summary = zonal_summary(d);
    for (const Zone& zone : summary.zones) {
      CAPTURE(round, zone.from_deg);
      CHECK(zone.lumens == Approx(lumens_by_quadrature(d, zone.from_deg, zone.to_deg)).epsilon(1e-11));
    }
  }
}

TEST_CASE("zonal summary: zones add up to groups and to the whole, shares to 1", "[photometry][property]") {
  std::mt19937 random(5);
  for (int round = 0; round < 10; ++round) {
    const auto d = random_table(random);
    const auto summary = zonal_summary(d, 2 * lumens(d));
    for (const Zone& group : summary.groups) {  // sums of up to 18 positive numbers: rounding
      CHECK(group.lumens == Approx(zonal_lumens(d, group.from_deg, group.to_deg)).epsilon(1e-12));
    }
    const Zone& all = summary.groups.back();
    CHECK(all.lumens == Approx(lumens(d)).epsilon(1e-12));
    CHECK(all.luminaire_share == Approx(1).epsilon(1e-12));
    CHECK(all.lamp_share.value() == Approx(0.5).epsilon(1e-12));

    const ZonalFlux ours = zonal_flux(summary);
    const ZonalFlux theirs = zonal_flux(d);
    CHECK(ours.up == Approx(theirs.up).epsilon(1e-12));
    CHECK(ours.down == theirs.down);
  }
}

TEST_CASE("zonal summary: a table around a horizontal axis gives the zones of the same beam",
          "[photometry][property]") {
  // cos^2 in steps of a degree: chords within 8e-5 of the peak of the curve, over each zone's solid angle, and the
  // numerical mean around the vertical within 1e-4 of the flux.
  const auto b = zonal_summary(cosine_power_type_b(2));
  const auto c = zonal_summary(cosine_power_table(2, 0.1));
  const double all = c.groups.back().lumens;
  for (std::size_t i = 0; i < 9; ++i) {
    const double solid_angle_sr =
        2 * std::numbers::pi *
        (std::cos(c.zones[i].from_deg * k_rad_per_deg) - std::cos(c.zones[i].to_deg * k_rad_per_deg));
    CHECK(b.zones[i].lumens == Approx(c.zones[i].lumens).epsilon(0).margin(0.08 * solid_angle_sr + 1e-4 * all));
  }
}

TEST_CASE("zonal summary: no light, no share", "[photometry][exact]") {
  const auto dark = zonal_summary({{0, 90}, {0}, Eigen::ArrayXXd::Zero(2, 1)});
  CHECK(dark.groups.back().luminaire_share == 0);
  CHECK_FALSE(dark.groups.back().lamp_share.has_value());
}
