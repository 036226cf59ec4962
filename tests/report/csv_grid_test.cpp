#include "evenlit/report/csv_grid.hpp"

#include <catch2/catch.hpp>
#include <sstream>

#include "drawing/sample_light.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/number.hpp"
#include "significant.hpp"

using namespace evenlit;

TEST_CASE("the CSV grid reads back point by point", "[report][exact]") {
  const sample::Lit lit = sample::l_shaped_room();
  std::istringstream lines(csv_grid(lit.light));
  std::string line;
  REQUIRE(std::getline(lines, line));
  CHECK(line == "x_m,y_m,height_m,illuminance_lx,illuminance_fc,direct_lx,error_lx");
  Eigen::Index row = 0;
  for (; std::getline(lines, line); ++row) {
    std::istringstream cells(line);
    std::vector<double> values;
    for (std::string cell; std::getline(cells, cell, ',');) {
      const auto value = number_from_text(cell);
      REQUIRE(value);
      values.push_back(*value);
    }
    REQUIRE(values.size() == 7);
    // half of the last digit written: a millimetre, four significant digits (two for the error)
    CHECK(values[0] == Approx(lit.light.grid.points_m[row].x()).margin(5.01e-4));
    CHECK(values[1] == Approx(lit.light.grid.points_m[row].y()).margin(5.01e-4));
    CHECK(values[2] == 0.762);
    CHECK(values[3] == Approx(lit.light.field.total_lx[row]).epsilon(5.01e-4));
    CHECK(values[4] == Approx(lit.light.field.total_lx[row] / k_lux_per_footcandle).epsilon(5.01e-4));
    CHECK(values[5] == Approx(lit.light.field.direct_lx[row]).epsilon(5.01e-4));
    CHECK(values[6] == Approx(lit.light.field.error_lx[row]).epsilon(5.01e-2));
  }
  CHECK(row == lit.light.field.total_lx.size());
}

TEST_CASE("significant digits are plain decimals", "[report][exact]") {
  CHECK(significant_text(432.148, 4) == "432.1");
  CHECK(significant_text(43214.8, 4) == "43210");
  CHECK(significant_text(0.00432148, 4) == "0.004321");
  CHECK(significant_text(999.96, 4) == "1000");
  CHECK(significant_text(100, 4) == "100.0");
  CHECK(significant_text(0, 4) == "0");
  CHECK(significant_text(1e-12, 4) == "0");
}
