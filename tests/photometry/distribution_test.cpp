#include "evenlit/photometry/distribution.hpp"

#include <array>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "sample_tables.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

constexpr double k_pi = std::numbers::pi;

/// A rotational curve of seven straight-line points.
IntensityDistribution tab() {
  IntensityDistribution d{{0, 15, 30, 45, 60, 75, 90}, {0}, Eigen::ArrayXXd(7, 1)};
  d.candela << 1000, 950, 800, 500, 150, 20, 0;
  return d;
}

/// Every intensity different, except at the poles where all planes meet.
IntensityDistribution uneven() {
  IntensityDistribution d{{0, 20, 50, 90, 130, 180}, {0, 30, 90, 135, 200, 270, 360}, Eigen::ArrayXXd(6, 7)};
  for (Eigen::Index i = 0; i < 6; ++i) {
    for (Eigen::Index j = 0; j < 7; ++j) {
      d.candela(i, j) = i == 0 ? 500 : i == 5 ? 40 : 100.0 + static_cast<double>(37 * i + 11 * (j % 6) * (i % 3 + 1));
    }
  }
  return d;
}

/// Flux by adaptive quadrature of `intensity_at` over each cell of the table: knows neither the trapezoid over C nor
/// the closed form over gamma.
double lumens_by_quadrature(const IntensityDistribution& d) {
  using Rule = boost::math::quadrature::gauss_kronrod<double, 31>;
  const std::vector<double> planes = is_rotational(d) ? std::vector<double>{0, 360} : d.c_deg;
  double sum = 0;
  for (std::size_t i = 1; i < d.gamma_deg.size(); ++i) {
    for (std::size_t j = 1; j < planes.size(); ++j) {
      const auto ring = [&](double gamma_deg) {
        const auto at = [&](double c_deg) { return intensity_at(d, gamma_deg, c_deg); };
        return Rule::integrate(at, planes[j - 1], planes[j], 0) * std::sin(gamma_deg * k_pi / 180);
      };
      sum += Rule::integrate(ring, d.gamma_deg[i - 1], d.gamma_deg[i], 0);
    }
  }
  return sum * (k_pi / 180) * (k_pi / 180);
}

}  // namespace

TEST_CASE("intensity: the table's own values at its knots, straight lines between them", "[photometry][exact]") {
  const auto d = tab();
  CHECK(intensity_at(d, 0, 0) == 1000);
  CHECK(intensity_at(d, 30, 0) == 800);
  CHECK(intensity_at(d, 90, 0) == 0);
  CHECK(intensity_at(d, 37.5, 0) == 650);
  CHECK(intensity_at(d, 37.5, 211) == 650);
}

TEST_CASE("intensity: bilinear between planes", "[photometry][exact]") {
  const auto d = uneven();
  const double lower = (d.candela(1, 1) + d.candela(1, 2)) / 2;
  const double upper = (d.candela(2, 1) + d.candela(2, 2)) / 2;
  // A sum of four products of numbers below 1000: rounding stays below 1e-12.
  CHECK(intensity_at(d, 35, 60) == Approx((lower + upper) / 2).epsilon(0).margin(1e-12));
}

TEST_CASE("intensity: zero outside the table's vertical angles", "[photometry][exact]") {
  const auto d = tab();
  CHECK(intensity_at(d, 90.001, 0) == 0);
  CHECK(intensity_at(d, 180, 0) == 0);
  IntensityDistribution uplight{{90, 180}, {0}, Eigen::ArrayXXd::Constant(2, 1, 5.0)};
  CHECK(intensity_at(uplight, 89.999, 0) == 0);
  CHECK(intensity_at(uplight, 90, 0) == 5);
}

TEST_CASE("intensity: angles wrap", "[photometry][property]") {
  const auto d = uneven();
  // The angles of each pair name one direction; wrapping rounds them by 1e-13 degrees, worth below 1e-11 cd here.
  const std::array<std::array<double, 4>, 6> same = {{{40, 350, 40, -10},
                                                      {40, 350, 40, 710},
                                                      {-40, 100, 40, 280},
                                                      {220, 100, 140, 280},
                                                      {400, 15, 40, 15},
                                                      {40, 360, 40, 0}}};
  for (const auto& [gamma_a, c_a, gamma_b, c_b] : same) {
    CAPTURE(gamma_a, c_a);
    CHECK(intensity_at(d, gamma_a, c_a) == Approx(intensity_at(d, gamma_b, c_b)).epsilon(0).margin(1e-11));
  }
}

TEST_CASE("intensity: at the poles every plane gives the same", "[photometry][property]") {
  const auto d = uneven();
  for (double c_deg = -400; c_deg < 800; c_deg += 7.3) {
    CHECK(intensity_at(d, 0, c_deg) == 500);
    CHECK(intensity_at(d, 180, c_deg) == 40);
  }
}

TEST_CASE("direction: gamma counts from straight down, C from +x toward +y", "[photometry][formula]") {
  // IES LM-63-2002 key definitions: vertical angles from straight down, horizontal ones counter-clockwise in type C.
  // Quarter turns and their middles give exact angles, so the table's values come back to rounding.
  IntensityDistribution d{{0, 90, 180}, {0, 90, 180, 270, 360}, Eigen::ArrayXXd(3, 5)};
  d.candela << 1, 1, 1, 1, 1,  //
      10, 20, 30, 40, 10,      //
      5, 5, 5, 5, 5;
  CHECK(intensity_toward(d, {0, 0, -1}) == 1);
  CHECK(intensity_toward(d, {0, 0, 2}) == 5);
  CHECK(intensity_toward(d, {3, 0, 0}) == 10);
  CHECK(intensity_toward(d, {0, 1, 0}) == 20);
  CHECK(intensity_toward(d, {-1, 0, 0}) == 30);
  CHECK(intensity_toward(d, {0, -1, 0}) == 40);
  CHECK(intensity_toward(d, {1, 1, 0}) == Approx(15).epsilon(1e-14));
  CHECK(intensity_toward(d, {1, 0, -1}) == Approx(5.5).epsilon(1e-14));
  CHECK(intensity_toward(d, {0, 1, 1}) == Approx(12.5).epsilon(1e-14));
}

TEST_CASE("direction: gamma 30, C 45 is (0.353553, 0.353553, -0.866025)", "[photometry][formula]") {
  // d = (sin g cos C, sin g sin C, -cos g). The curves are linear in the angles, so each angle can be read off: six
  // printed digits of the direction leave 1e-6 rad, 6e-5 degrees.
  IntensityDistribution gamma{{0, 180}, {0}, Eigen::ArrayXXd(2, 1)};
  gamma.candela << 0, 180;
  IntensityDistribution c{{0, 30, 60}, {0, 360}, Eigen::ArrayXXd(3, 2)};
  c.candela << 0, 0, 0, 360, 0, 0;
  const Eigen::Vector3d direction(0.353553, 0.353553, -0.866025);
  CHECK(intensity_toward(gamma, direction) == Approx(30).margin(6e-5));
  CHECK(intensity_toward(c, direction) == Approx(45).margin(6e-5 * 45));
}

TEST_CASE("lumens: piecewise linear curve in closed form", "[photometry][exact]") {
  // Sum over the six intervals of 2 pi times the integral of (I1 + m (t - t1)) sin t dt, to six printed decimals.
  CHECK(lumens(tab()) == Approx(1950.220839).epsilon(0).margin(5e-7));
}

TEST_CASE("lumens: a constant intensity fills its solid angle", "[photometry][exact]") {
  IntensityDistribution hemisphere{{0, 90}, {0}, Eigen::ArrayXXd::Constant(2, 1, 1000.0)};
  CHECK(lumens(hemisphere) == Approx(2 * k_pi * 1000).epsilon(1e-14));
  IntensityDistribution ring{{20, 30, 40}, {0, 90, 360}, Eigen::ArrayXXd::Constant(3, 3, 7.0)};
  const double solid_angle_sr = 2 * k_pi * (std::cos(k_pi / 9) - std::cos(2 * k_pi / 9));
  CHECK(lumens(ring) == Approx(7 * solid_angle_sr).epsilon(1e-13));
}

TEST_CASE("lumens: tables of cosine powers", "[photometry][formula]") {
  // The chords' own flux, derived by the closed form of the interval and printed to three decimals. The curve itself
  // has 2 pi 1000 / (n + 1): 3141.593 and 571.199 lm.
  struct Case {
    double n, step_deg, lumens;
  };
  for (const auto& [n, step_deg, expected] :
       {Case{1, 10, 3133.593}, Case{1, 5, 3139.597}, Case{1, 2.5, 3141.094}, Case{1, 1, 3141.513},
        Case{10, 10, 585.432}, Case{10, 5, 574.807}, Case{10, 2.5, 572.104}, Case{10, 1, 571.344}}) {
    CAPTURE(n, step_deg);
    CHECK(lumens(cosine_power_table(n, step_deg)) == Approx(expected).epsilon(0).margin(5.1e-4));
  }
}

TEST_CASE("lumens: agrees with adaptive quadrature of the interpolated intensity", "[photometry][reference]") {
  // 31-point Gauss-Kronrod is exact to rounding on a linear function times a sine over one cell; some 40 cells add up
  // to 1e-12 relative.
  CHECK(lumens(tab()) == Approx(lumens_by_quadrature(tab())).epsilon(1e-12));
  CHECK(lumens(uneven()) == Approx(lumens_by_quadrature(uneven())).epsilon(1e-12));

  std::mt19937 random(20240607);
  std::uniform_real_distribution<double> step(1, 40), candela(0, 2000);
  for (int round = 0; round < 20; ++round) {
    CAPTURE(round);
    IntensityDistribution d{{step(random)}, {0}, {}};
    while (d.gamma_deg.back() < 130) d.gamma_deg.push_back(d.gamma_deg.back() + step(random));
    while (d.c_deg.back() < 310) d.c_deg.push_back(d.c_deg.back() + step(random));
    d.c_deg.push_back(360);
    d.candela =
        Eigen::ArrayXXd::NullaryExpr(std::ssize(d.gamma_deg), std::ssize(d.c_deg), [&] { return candela(random); });
    d.candela.col(d.candela.cols() - 1) = d.candela.col(0);
    CHECK(lumens(d) == Approx(lumens_by_quadrature(d)).epsilon(1e-11));
  }
}

TEST_CASE("zonal lumens: zones of a constant intensity are zonal constants", "[photometry][published]") {
  // 2 pi (cos a - cos b) for zones of 10 degrees, printed to six decimals.
  const double zonal_constants_sr[] = {0.095456, 0.283467, 0.462865, 0.628199, 0.774446,
                                       0.897161, 0.992617, 1.057912, 1.091064};
  const IntensityDistribution even{{0, 33, 90}, {0}, Eigen::ArrayXXd::Ones(3, 1)};
  for (int zone = 0; zone < 9; ++zone) {
    CHECK(zonal_lumens(even, 10 * zone, 10 * zone + 10) == Approx(zonal_constants_sr[zone]).epsilon(0).margin(5.1e-7));
  }
}

TEST_CASE("zonal lumens: zones add up to the whole, whatever their borders", "[photometry][property]") {
  for (const auto& d : {tab(), uneven()}) {
    const double zones = zonal_lumens(d, 0, 17.3) + zonal_lumens(d, 17.3, 45) + zonal_lumens(d, 45, 90) +
                         zonal_lumens(d, 90, 91) + zonal_lumens(d, 91, 180);
    CHECK(zones == Approx(lumens(d)).epsilon(1e-13));
  }
  CHECK(zonal_lumens(tab(), 90, 180) == 0);
  CHECK(zonal_lumens(tab(), 40, 40) == 0);
}

TEST_CASE("scaled: intensity and flux follow the factor", "[photometry][property]") {
  const auto d = uneven();
  const auto half = scaled(d, 0.5);
  CHECK(half.gamma_deg == d.gamma_deg);
  CHECK(half.c_deg == d.c_deg);
  CHECK((half.candela == d.candela / 2).all());
  CHECK(lumens(half) == Approx(lumens(d) / 2).epsilon(1e-15));
  CHECK(lumens(scaled(d, 0)) == 0);
}

TEST_CASE("distributions are equal when angles and candelas are", "[photometry][exact]") {
  CHECK(tab() == tab());
  CHECK_FALSE(tab() == uneven());
  CHECK_FALSE(tab() == scaled(tab(), 2));
  CHECK(is_rotational(tab()));
  CHECK_FALSE(is_rotational(uneven()));
}
