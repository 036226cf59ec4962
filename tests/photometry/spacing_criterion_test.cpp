#include "evenlit/photometry/spacing_criterion.hpp"

#include <catch2/catch.hpp>

#include "sample_tables.hpp"

using namespace evenlit;
using namespace evenlit::testing;

TEST_CASE("spacing criterion of cosine powers", "[photometry][formula]") {
  // cos^(n+3) t = 1/2 and 1/4 solved for t: 2 tan t and sqrt(2) tan t; n = 1 gives 1.287 and 1.414. A table in steps of
  // 0.25 degrees is within 3e-6 (n + 1) of the curve, which moves the tangent by less than 1e-5.
  for (const double n : {0.0, 1.0, 2.0, 8.0}) {
    CAPTURE(n);
    const auto tangent = [&](double part) { return std::sqrt(std::pow(part, -2 / (n + 3)) - 1); };
    const auto found = spacing_criterion(cosine_power_table(n, 0.25)).value();
    const double of_four = std::numbers::sqrt2 * tangent(0.25);
    const double of_two = std::min(2 * tangent(0.5), of_four);
    CHECK(found.along == Approx(of_two).epsilon(0).margin(2e-5));
    CHECK(found.across == found.along);
    CHECK(found.diagonal == Approx(of_four).epsilon(0).margin(2e-5));
  }
  const auto cosine = spacing_criterion(cosine_power_table(1, 0.25)).value();
  CHECK(cosine.along == Approx(1.287).epsilon(0).margin(5.1e-4));  // three printed decimals
  CHECK(cosine.diagonal == Approx(1.414).epsilon(0).margin(5.1e-4));
}

TEST_CASE("spacing criterion: turning by 90 degrees swaps the planes, scaling changes nothing",
          "[photometry][property]") {
  std::mt19937 random(99);
  for (int round = 0; round < 10; ++round) {
    auto d = random_table(random);
    d.candela.bottomRows(3) *= 0.01;
    const auto found = spacing_criterion(d);
    REQUIRE(found.has_value());
    const auto turned_once = spacing_criterion(turned(d, 1)).value();
    // Bisection ends at rounding, and turning rounds.
    CHECK(turned_once.along == Approx(found->across).epsilon(1e-10));
    CHECK(turned_once.across == Approx(found->along).epsilon(1e-10));
    CHECK(turned_once.diagonal == Approx(found->diagonal).epsilon(1e-10));
    CHECK(spacing_criterion(scaled(d, 8))->along == found->along);
  }
}

TEST_CASE("spacing criterion: the two sides of a luminaire count as they are", "[photometry][exact]") {
  // Constant 100 cd toward C 0 and 300 cd toward C 180 but for the centre: midway each gives its own.
  IntensityDistribution d{{0, 1, 90}, {0, 180, 360}, Eigen::ArrayXXd(3, 3)};
  d.candela << 200, 200, 200, 100, 300, 100, 100, 300, 100;
  // 400 cos^3 t = 200; in the table's straight lines exactly, so to rounding.
  CHECK(spacing_criterion(d)->along == Approx(2 * std::sqrt(std::pow(2, 2.0 / 3) - 1)).epsilon(1e-12));
}

TEST_CASE("spacing criterion: none without light straight down or with most of it going up", "[photometry][exact]") {
  auto dark_centre = cosine_power_table(1, 5);
  dark_centre.candela(0) = 0;
  CHECK_FALSE(spacing_criterion(dark_centre).has_value());
  IntensityDistribution up{{0, 90, 180}, {0}, Eigen::ArrayXXd(3, 1)};
  up.candela << 10, 20, 100;
  CHECK_FALSE(spacing_criterion(up).has_value());
  up.candela << 100, 20, 10;
  CHECK(spacing_criterion(up).has_value());
}
