#include "sphere.hpp"

#include <catch2/catch.hpp>

using namespace evenlit;

TEST_CASE("sphere: gamma counts from straight down, C from +x toward +y", "[photometry][exact]") {
  // A cosine of 90 degrees misses 0 by 6e-17.
  CHECK((direction_of(0, 0) - Eigen::Vector3d(0, 0, -1)).norm() < 1e-15);
  CHECK((direction_of(90, 0) - Eigen::Vector3d(1, 0, 0)).norm() < 1e-15);
  CHECK((direction_of(90, 90) - Eigen::Vector3d(0, 1, 0)).norm() < 1e-15);
  CHECK((direction_of(180, 0) - Eigen::Vector3d(0, 0, 1)).norm() < 1e-15);
}

TEST_CASE("sphere: the angles of a direction are those that it was made of", "[photometry][property]") {
  for (int gamma_deg = 1; gamma_deg < 180; gamma_deg += 7) {
    for (int c_deg = -179; c_deg < 180; c_deg += 11) {
      const Angles angles = angles_of(3 * direction_of(gamma_deg, c_deg));
      // Rounding of sines and arc tangents, 1e-16 rad or 6e-15 degrees each; C takes that over sin 1 degree = 1 / 57.
      CHECK(angles.gamma_deg == Approx(gamma_deg).epsilon(0).margin(1e-12));
      CHECK(angles.c_deg == Approx(c_deg).epsilon(0).margin(1e-12));
    }
  }
}

TEST_CASE("sphere: every C has one name from 0 up to 360", "[photometry][exact]") {
  CHECK(wrapped_c_deg(0) == 0);
  CHECK(wrapped_c_deg(360) == 0);
  CHECK(wrapped_c_deg(-90) == 270);
  CHECK(wrapped_c_deg(765) == 45);
  CHECK(wrapped_c_deg(-1e-17) == 0);
}
