#include "evenlit/photometry/utilization_table.hpp"

#include <catch2/catch.hpp>

#include "sample_tables.hpp"

using namespace evenlit;
using namespace evenlit::testing;

TEST_CASE("utilization table: a row a room cavity ratio, a column a pair of finishes", "[photometry][formula]") {
  // Mid-zone candela 560 520 430 290 130 40 12 4 1; closed coefficients evaluated to four printed decimals.
  const ZonalFlux flux{{53.4552, 147.4027, 199.0319, 182.1777, 100.6779, 35.8864, 11.9114, 4.2316, 1.0911}, 0};
  const auto table = utilization_table(flux);
  struct Case {
    int room, column;
    double coefficient;
  };
  for (const auto& [room, column, coefficient] :
       {Case{2, 0, 1.0591}, Case{2, 1, 1.0028}, Case{2, 2, 0.9564}, Case{2, 5, 0.9853}, Case{2, 8, 0.9522},
        Case{2, 9, 0.9171}, Case{2, 17, 0.8315}, Case{7, 0, 0.7773}, Case{7, 2, 0.6030}, Case{7, 17, 0.5279}}) {
    CAPTURE(room, column);
    CHECK(table.coefficient(room, column) == Approx(coefficient).epsilon(0).margin(0.6e-4));
  }
}

TEST_CASE("utilization table: shares of the lamps' light are smaller by the light output ratio",
          "[photometry][property]") {
  const auto flux = zonal_flux(cosine_power_table(2, 5));
  const auto of_luminaire = utilization_table(flux);
  CHECK((utilization_table(flux, 0.5).coefficient == of_luminaire.coefficient / 2).all());
}

TEST_CASE("utilization table: falls with the room cavity ratio and with darker finishes", "[photometry][property]") {
  for (const double n : {0.0, 1.0, 4.0, 20.0}) {
    const auto c = utilization_table(zonal_flux(cosine_power_table(n, 5))).coefficient;
    CHECK((c.topRows(10) >= c.bottomRows(10)).all());
    for (Eigen::Index j = 1; j < c.cols(); ++j) {
      const auto& lighter = UtilizationTable::k_finishes[static_cast<std::size_t>(j - 1)];
      const auto& darker = UtilizationTable::k_finishes[static_cast<std::size_t>(j)];
      const bool is_darker = darker.ceiling <= lighter.ceiling && darker.walls <= lighter.walls;
      if (is_darker) CHECK((c.col(j - 1) >= c.col(j) - 1e-12).all());  // equal at ratio 0, to rounding
    }
  }
}
