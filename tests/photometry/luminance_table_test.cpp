#include "evenlit/photometry/luminance_table.hpp"

#include <catch2/catch.hpp>

#include "sample_tables.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

constexpr Opening k_disc{Opening::Shape::disc, 0.15, 0.15, 0};
constexpr Opening k_panel{Opening::Shape::rectangle, 0.3, 1.2, 0};

}  // namespace

TEST_CASE("luminance of a cosine emitter is the same in every direction", "[photometry][formula]") {
  // 300 cd over a disc of 0.15 m: 300 / (pi 0.075^2) = 16976.527263 cd/m2. All angles are knots of the table.
  const auto table = luminance_table(scaled(cosine_power_table(1, 5), 0.3), k_disc).value();
  CHECK(table.gamma_deg == std::vector<double>{45, 55, 65, 75, 85});
  CHECK(table.c_deg == std::vector<double>{0});
  for (const double luminance : table.cd_m2.reshaped()) CHECK(luminance == Approx(16976.527263).epsilon(1e-10));
}

TEST_CASE("projected areas: discs, rectangles, ellipses, cylinders and boxes", "[photometry][formula]") {
  const double root_half = std::sqrt(0.5);
  // Sums of a few products: rounding.
  CHECK(projected_area_m2(k_panel, 0, 0) == Approx(0.36).epsilon(1e-14));
  CHECK(projected_area_m2(k_panel, 60, 70) == Approx(0.18).epsilon(1e-14));
  CHECK(projected_area_m2({Opening::Shape::other, 0.2, 0.4, 0}, 60, 0) ==
        Approx(std::numbers::pi * 0.1 * 0.2 / 2).epsilon(1e-14));
  const Opening cylinder{Opening::Shape::disc, 0.2, 0.2, 0.5};
  CHECK(projected_area_m2(cylinder, 90, 33) == Approx(0.1).epsilon(1e-14));
  const Opening box{Opening::Shape::other, 0.2, 0.4, 0.1};
  CHECK(projected_area_m2(box, 45, 0) == Approx((0.08 + 0.1 * 0.2) * root_half).epsilon(1e-14));
  CHECK(projected_area_m2(box, 45, 90) == Approx((0.08 + 0.1 * 0.4) * root_half).epsilon(1e-14));
  CHECK(projected_area_m2(box, 90, 45) == Approx(0.1 * 0.6 * root_half).epsilon(1e-14));
}

TEST_CASE("luminance: as many planes as differ", "[photometry][exact]") {
  IntensityDistribution quadrants{{0, 90}, {0, 90, 180, 270, 360}, Eigen::ArrayXXd(2, 5)};
  quadrants.candela << 10, 10, 10, 10, 10, 4, 8, 4, 8, 4;
  CHECK(luminance_table(quadrants, k_panel)->c_deg == std::vector<double>{0, 45, 90});
  quadrants.candela(1, 3) = 7;
  CHECK(luminance_table(quadrants, k_panel)->c_deg.size() == 8);
  const Opening box{Opening::Shape::rectangle, 0.3, 1.2, 0.1};
  CHECK(luminance_table(cosine_power_table(1, 5), box)->c_deg == std::vector<double>{0, 45, 90});
}

TEST_CASE("luminance: none where the opening shows no area", "[photometry][exact]") {
  const auto cosine = cosine_power_table(1, 5);
  CHECK_FALSE(luminance_table(cosine, {}).has_value());
  CHECK_FALSE(luminance_table(cosine, {Opening::Shape::rectangle, 0, 1.2, 0}).has_value());
  CHECK_FALSE(luminance_table(cosine, {Opening::Shape::other, 0.2, 0, 0.2}).has_value());  // edge-on from C 90
}

TEST_CASE("luminance: scaling the light scales it, turning the luminaire turns it", "[photometry][property]") {
  std::mt19937 random(7);
  const auto d = random_table(random);
  const auto table = luminance_table(d, k_panel).value();
  REQUIRE(table.c_deg.size() == 8);
  CHECK((luminance_table(scaled(d, 4), k_panel)->cd_m2 == 4 * table.cd_m2).all());
  PhotometricFile file;
  file.distribution = d;
  file.opening = k_panel;
  file = turned(file, 1);
  const auto turned_table = luminance_table(file.distribution, file.opening).value();
  for (Eigen::Index j = 0; j < 8; ++j) {  // turning rounds the planes' angles
    CHECK((turned_table.cd_m2.col((j + 2) % 8) / table.cd_m2.col(j) - 1).abs().maxCoeff() < 1e-11);
  }
}
