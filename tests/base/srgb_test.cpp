#include "evenlit/base/srgb.hpp"

#include <catch2/catch.hpp>

using namespace evenlit;

TEST_CASE("srgb: drive and light are each other's inverse", "[base][published]") {
  // IEC 61966-2-1: the two pieces meet within the standard's rounding of their joint, 1e-7.
  for (int level = 0; level <= 255; ++level) {
    CHECK(encoded(decoded(level / 255.0)) == Approx(level / 255.0).margin(1e-7));
  }
  CHECK(decoded(0.5) == Approx(0.2140411).margin(1e-7));  // the formula by hand
}

TEST_CASE("srgb: a tint has the luminance of white, and its colour's hue", "[base][exact]") {
  const Eigen::Vector3d tint = tint_of({{200, 120, 60}});
  CHECK(k_luminance_of_rgb.dot(tint) == Approx(1).epsilon(1e-14));
  CHECK(tint[0] / tint[2] == Approx(decoded(200 / 255.0) / decoded(60 / 255.0)).epsilon(1e-14));
  CHECK(tint_of({{90, 90, 90}}).isApproxToConstant(1, 1e-14));
  CHECK(tint_of({{0, 0, 0}}) == Eigen::Vector3d::Ones());
}
