#include "evenlit/photometry/peak.hpp"

#include <catch2/catch.hpp>

#include "sample_tables.hpp"

using namespace evenlit;
using namespace evenlit::testing;

TEST_CASE("peak: the largest intensity, nearest to straight down, and its direction", "[photometry][exact]") {
  IntensityDistribution d{{0, 20, 40}, {0, 90, 180, 270, 360}, Eigen::ArrayXXd(3, 5)};
  d.candela << 10, 10, 10, 10, 10,  //
      20, 30, 80, 30, 20,           //
      0, 80, 80, 0, 0;
  CHECK(peak(d).candela == 80);
  CHECK(peak(d).gamma_deg == 20);
  CHECK(peak(d).c_deg == 180);
  CHECK(peak(turned(d, 1)).c_deg == 270);
  CHECK(peak(turned(d, 2)).c_deg == 0);
}

TEST_CASE("peak: straight down has no C", "[photometry][exact]") {
  IntensityDistribution d{{0, 90}, {-90, 90}, Eigen::ArrayXXd(2, 2)};
  d.candela << 7, 7, 0, 0;
  CHECK(peak(d).gamma_deg == 0);
  CHECK(peak(d).c_deg == 0);
}

TEST_CASE("peak: in the luminaire's angles whatever the table's axis", "[photometry][formula]") {
  const auto centred = peak(cosine_power_type_b(3));
  CHECK(centred.gamma_deg == 0);
  CHECK(centred.candela == Approx(1000).epsilon(1e-15));

  // IES LM-63-2002 key definitions, derived: type B at V 20, H 30 is gamma 35.5313, C 306.0524 (four printed decimals).
  IntensityDistribution b{{0, 110, 180}, {-90, -30, 90}, Eigen::ArrayXXd::Zero(3, 3)};
  b.axis = IntensityDistribution::Axis::along_c0;
  b.candela(1, 1) = 5;
  CHECK(peak(b).gamma_deg == Approx(35.5313).epsilon(0).margin(5.1e-5));
  CHECK(peak(b).c_deg == Approx(306.0524).epsilon(0).margin(5.1e-5));
}
