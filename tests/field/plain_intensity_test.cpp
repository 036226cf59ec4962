#include "reference/plain_intensity.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "photometry/sample_tables.hpp"

using namespace evenlit;
using namespace evenlit::reference;
using Eigen::Vector3d;

// Two readings of the same definition of angles, written apart.
TEST_CASE("the plain reading of tables agrees with the engine's in all directions", "[field][reference]") {
  const auto axis = GENERATE(IntensityDistribution::Axis::vertical, IntensityDistribution::Axis::along_c0,
                             IntensityDistribution::Axis::along_c90);
  std::mt19937 random(3);
  std::normal_distribution<double> normal;
  for (int table = 0; table < 20; ++table) {
    IntensityDistribution distribution = testing::random_table(random);
    distribution.axis = axis;
    for (int i = 0; i < 500; ++i) {
      const Vector3d direction(normal(random), normal(random), normal(random));
      CAPTURE(table, direction.transpose());
      // Rounding, along tables that change by up to their peak in 5 degrees.
      CHECK(plain_intensity(distribution, direction) ==
            Approx(intensity_toward(distribution, direction)).margin(1e-9).epsilon(1e-9));
    }
  }
}
