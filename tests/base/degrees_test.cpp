#include "evenlit/base/degrees.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace evenlit;

TEST_CASE("degrees: quarter turns are exact", "[base][exact]") {
  for (int turns = -3; turns <= 3; ++turns) {
    CHECK(sine_of_degrees(360 * turns) == 0);
    CHECK(sine_of_degrees(360 * turns + 90) == 1);
    CHECK(sine_of_degrees(360 * turns + 180) == 0);
    CHECK(sine_of_degrees(360 * turns + 270) == -1);
    CHECK(cosine_of_degrees(360 * turns + 90) == 0);
    CHECK(cosine_of_degrees(360 * turns + 180) == -1);
  }
}

TEST_CASE("degrees: between them they are those of the angle", "[base][exact]") {
  // Ten turns in radians are rounded to 1e-14.
  for (double degrees = -3600; degrees < 3600; degrees += 7.3) {
    CHECK(sine_of_degrees(degrees) == Approx(std::sin(degrees * std::numbers::pi / 180)).margin(2e-14));
    CHECK(cosine_of_degrees(degrees) == Approx(std::cos(degrees * std::numbers::pi / 180)).margin(2e-14));
  }
}
