#include "evenlit/photometry/cone_table.hpp"

#include <array>
#include <catch2/catch.hpp>

#include "sample_tables.hpp"

using namespace evenlit;
using namespace evenlit::testing;

TEST_CASE("cone of light: inverse squares, and a width of twice the tangent of half the angle",
          "[photometry][formula]") {
  // cos^2: beam angle 90 degrees, so the beam is 2 d wide; chords of 0.1 degrees move its edges by below 1e-4 degrees,
  // 3e-6 of the width.
  const auto rows = cone_table(cosine_power_table(2, 0.1), std::array{1.0, 2.5});
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].centre_lx == 1000);
  CHECK(rows[1].distance_m == 2.5);
  CHECK(rows[1].centre_lx == 160);
  CHECK(rows[1].along_m.value() == Approx(5).epsilon(1e-5));
  CHECK(rows[1].across_m == rows[1].along_m);
}

TEST_CASE("cone of light: a beam thrown to one side lies between its edges on that side", "[photometry][exact]") {
  IntensityDistribution thrown{{0, 30, 45, 60, 75}, {0, 90, 180, 270, 360}, Eigen::ArrayXXd(5, 5)};
  thrown.candela << 0, 0, 0, 0, 0,  //
      50, 0, 0, 0, 50,              //
      100, 0, 0, 0, 100,            //
      50, 0, 0, 0, 50,              //
      0, 0, 0, 0, 0;
  const auto rows = cone_table(thrown, std::array{2.0});
  CHECK(rows[0].centre_lx == 0);
  // Edges at 30 and 60 degrees, knots of the table.
  CHECK(rows[0].along_m.value() == Approx(2 * (std::sqrt(3) - 1 / std::sqrt(3))).epsilon(1e-13));
  CHECK_FALSE(rows[0].across_m.has_value());
}

TEST_CASE("cone of light: no width where an edge is at or above the horizontal", "[photometry][exact]") {
  IntensityDistribution wide{{0, 90, 180}, {0}, Eigen::ArrayXXd(3, 1)};
  wide.candela << 100, 80, 0;
  CHECK_FALSE(cone_table(wide, std::array{1.0})[0].along_m.has_value());
}
