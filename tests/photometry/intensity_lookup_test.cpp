#include "evenlit/photometry/intensity_lookup.hpp"

#include <catch2/catch.hpp>
#include <random>

using namespace evenlit;

namespace {

IntensityDistribution uneven_table(bool rotational) {
  IntensityDistribution table{.gamma_deg = {0, 0.5, 3, 17, 18, 60, 89, 90, 135},
                              .c_deg = rotational ? std::vector<double>{0} : std::vector<double>{0, 10, 11, 200, 360},
                              .candela = Eigen::ArrayXXd(9, rotational ? 1 : 5)};
  for (int i = 0; i < 9; ++i) {
    for (int j = 0; j < table.candela.cols(); ++j) table.candela(i, j) = 900 - 80 * i + (i > 0 ? 7 * (j % 4) : 0);
  }
  return table;
}

}  // namespace

TEST_CASE("a prepared lookup gives the distribution's own intensities", "[photometry][property]") {
  const bool rotational = GENERATE(true, false);
  const IntensityDistribution table = uneven_table(rotational);
  const IntensityLookup lookup(table);
  std::mt19937 random(20260101);
  std::normal_distribution<double> normal;
  for (int i = 0; i < 20000; ++i) {
    const Eigen::Vector3d direction = Eigen::Vector3d(normal(random), normal(random), normal(random)).normalized();
    // acos near straight down and the two roundings of the bracket: 1e-6 of slopes up to 160 cd per degree.
    CHECK(lookup.toward(direction) == Approx(intensity_toward(table, direction)).margin(1e-4).epsilon(0));
  }
  for (const Eigen::Vector3d& pole : {Eigen::Vector3d(0, 0, -1), Eigen::Vector3d(0, 0, 1), Eigen::Vector3d(1, 0, 0)}) {
    CHECK(lookup.toward(pole) == Approx(intensity_toward(table, pole)).margin(1e-9));
  }
}

TEST_CASE("knots are found wherever they are crowded", "[photometry][exact]") {
  const std::vector<double> knots{0, 1e-3, 2e-3, 50, 90};
  const KnotFinder finder(knots);
  CHECK(finder.at(0).below == 0);
  CHECK(finder.at(1.5e-3).below == 1);
  CHECK(finder.at(1.5e-3).fraction == Approx(0.5));
  CHECK(finder.at(2e-3).below == 2);
  CHECK(finder.at(70).below == 3);
  CHECK(finder.at(90).below == 3);
  CHECK(finder.at(90).fraction == Approx(1));
}
