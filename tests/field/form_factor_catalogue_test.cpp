#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <vector>

#include "evenlit/field/form_factor.hpp"

using namespace evenlit;
using Eigen::Vector3d;

namespace {

using Outline = std::vector<Vector3d>;

const Vector3d k_up = Vector3d::UnitZ();

/// Horizontal, facing down.
Outline facing_down(double x0, double x1, double y0, double y1, double z) {
  return {{x0, y0, z}, {x0, y1, z}, {x1, y1, z}, {x1, y0, z}};
}

/// In the plane y = 0, facing +y.
Outline facing_plus_y(double x0, double x1, double z0, double z1) {
  return {{x1, 0, z0}, {x0, 0, z0}, {x0, 0, z1}, {x1, 0, z1}};
}

/// In the plane x = 0, facing +x.
Outline facing_plus_x(double y0, double y1, double z0, double z1) {
  return {{0, y0, z0}, {0, y1, z0}, {0, y1, z1}, {0, y0, z1}};
}

/// A polygon of as many corners with the area of a circle, facing up; facing down when `down`.
Outline disc(double radius, double z, bool down) {
  constexpr int k_corners = 60;
  const double step = 2 * std::numbers::pi / k_corners;
  const double reach = radius * std::sqrt(step / std::sin(step));
  Outline outline;
  for (int i = 0; i < k_corners; ++i) {
    const double angle = (down ? -step : step) * i;
    outline.emplace_back(reach * std::cos(angle), reach * std::sin(angle), z);
  }
  return outline;
}

/// Half a unit of the last of six printed decimals.
Approx printed(double value) { return Approx(value).margin(0.5e-6).epsilon(0); }

}  // namespace

// In the manner of CIE 171:2006, clause 5.6, with the largest square; Howell B-3 and B-4 by corner algebra.
TEST_CASE("a square of 500 m is a plane without end", "[field][formula]") {
  const double offset = GENERATE(0, 0.25, 0.75, 1.25, 1.75, 2);
  CHECK(configuration_factor({offset, 0, 0}, k_up, facing_down(-250, 250, -250, 250, 3)) == printed(0.999882));

  // Half of it, seen from a plane that stands on its middle.
  const auto beside = [](double height) {
    return configuration_factor({0, height, 0}, Vector3d::UnitX(),
                                Outline{{0, 0, 250}, {250, 0, 250}, {250, 0, -250}, {0, 0, -250}});
  };
  CHECK(beside(0.25) == printed(0.499432));
  CHECK(beside(1) == printed(0.497727));
  CHECK(beside(3) == printed(0.493181));
}

// In the manner of CIE 171:2006, clause 5.7: a wall of 4 x 3 m without and, for the screen's shadow, with its foot cut
// off. Howell B-3 and B-4 by corner algebra.
TEST_CASE("a wall and what a screen leaves of it", "[field][formula]") {
  struct Case {
    double place, whole, whole_beside, left, left_beside;
  };
  const auto opposite = GENERATE(values<Case>({{0.25, 0.166100, 0.154871, 0.008743, 0.008236},
                                               {0.5, 0.174250, 0.162326, 0.020489, 0.019236},
                                               {1, 0.185911, 0.172983, 0.053546, 0.049983},
                                               {1.5, 0.190011, 0.176728, 0.095005, 0.088364},
                                               {2, 0.185911, 0.172983, 0.132365, 0.122999},
                                               {2.5, 0.174250, 0.162326, 0.153761, 0.143089}}));
  const auto across = [&](double x, double hidden_m) {
    return configuration_factor({x, 4, opposite.place}, -Vector3d::UnitY(), facing_plus_y(-2, 2, hidden_m, 3));
  };
  const double hidden_m = opposite.place + (1.5 - opposite.place) * 2;
  CHECK(across(0, 0) == printed(opposite.whole));
  CHECK(across(1, 0) == printed(opposite.whole_beside));
  CHECK(across(0, hidden_m) == printed(opposite.left));
  CHECK(across(1, hidden_m) == printed(opposite.left_beside));
}

TEST_CASE("a wall and what a low screen leaves of it for the floor", "[field][formula]") {
  struct Case {
    double y, whole, whole_beside, left, left_beside;
  };
  const auto c = GENERATE(values<Case>({{2.5, 0.118325, 0.107703, 0.019421, 0.017923},
                                        {3, 0.088017, 0.080892, 0.053931, 0.049809},
                                        {3.5, 0.066318, 0.061544, 0.051078, 0.047517},
                                        {4, 0.050688, 0.047464, 0.042572, 0.039919}}));
  const auto on_floor = [&](double x, double hidden_m) {
    return configuration_factor({x, c.y, 0}, k_up, facing_plus_y(-2, 2, hidden_m, 3));
  };
  const double hidden_m = 0.5 * c.y / (c.y - 2);
  CHECK(on_floor(0, 0) == printed(c.whole));
  CHECK(on_floor(1, 0) == printed(c.whole_beside));
  CHECK(on_floor(0, hidden_m) == printed(c.left));
  CHECK(on_floor(1, hidden_m) == printed(c.left_beside));
}

// Howell C-11 and C-14 by rectangle algebra; 0.2312 printed as a worked example of a heat-transfer library.
TEST_CASE("form factors of a square off the edge, and to a pentagon", "[field][published]") {
  const Outline floor{{0.5, 0, 0}, {1.5, 0, 0}, {1.5, 1, 0}, {0.5, 1, 0}};
  CHECK(exchange_area(floor, facing_plus_x(0, 1, 0, 1)) == printed(0.076137));

  const Outline pentagon{{0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {0.5, 2, 0}, {0, 1, 0}};
  // Slanting edges meet the square at a corner: the declared 1e-3.
  CHECK(exchange_area(facing_plus_x(0, 1, 0, 1), pentagon) == Approx(0.231186).epsilon(1e-3));
}

// Howell C-41. The polygons of 60 corners stand for circles of the same area: their outlines are off by up to 0.1 % of
// the radius, inwards as much as outwards, which leaves the square of that and a tenth of it.
TEST_CASE("form factors of discs face to face", "[field][formula]") {
  struct Case {
    double first, second, apart, factor;
  };
  const auto c = GENERATE(values<Case>({{1, 1, 1, 0.381966}, {0.5, 1, 1, 0.468871}, {1, 2, 2, 0.468871}}));
  const double area = std::numbers::pi * c.first * c.first;
  CHECK(exchange_area(disc(c.first, 0, false), disc(c.second, c.apart, true)) / area == Approx(c.factor).epsilon(1e-4));
}

namespace {

/// Configuration factor of a sphere: the sum over the faces of a globe of that radius, each at its own angle.
double sphere_factor(double radius, const Vector3d& centre, const Vector3d& normal) {
  constexpr int k_parallels = 60;
  constexpr int k_meridians = 120;
  const auto at = [&](int parallel, int meridian) -> Vector3d {
    const double polar = std::numbers::pi * parallel / k_parallels;
    const double around = 2 * std::numbers::pi * meridian / k_meridians;
    return centre +
           radius * Vector3d(std::sin(polar) * std::cos(around), std::sin(polar) * std::sin(around), std::cos(polar));
  };
  double sum = 0;
  for (int i = 0; i < k_parallels; ++i) {
    for (int j = 0; j < k_meridians; ++j) {
      Outline face{at(i, j), at(i + 1, j)};
      if (i + 1 < k_parallels) face.push_back(at(i + 1, j + 1));
      if (i > 0) face.push_back(at(i, j + 1));
      sum += configuration_factor(Vector3d::Zero(), normal, face);
    }
  }
  return sum;
}

}  // namespace

// (R / d)^2 cos; on the horizon (t - sin t) / (2 pi) with t = 2 asin(R / d). 0.04 and 0.001718 are the answers of a
// problem set of Cornell University, CS 667 (2007). The globe stays within 0.14 % of the radius inside the sphere: its
// shadow is smaller by up to a tenth of a percent, and the sliver above the horizon by twice that.
TEST_CASE("a sphere adds up from its faces, also half below the horizon", "[field][published]") {
  const auto toward = [](double degrees) {
    return Vector3d(std::sin(degrees * std::numbers::pi / 180), 0, std::cos(degrees * std::numbers::pi / 180));
  };
  CHECK(sphere_factor(1, 2 * toward(0), k_up) == Approx(0.25).epsilon(1e-3));
  CHECK(sphere_factor(1, 5 * toward(0), k_up) == Approx(0.04).epsilon(1e-3));
  CHECK(sphere_factor(0.1, toward(0), k_up) == Approx(0.01).epsilon(1e-3));
  CHECK(sphere_factor(0.125, 1.5 * toward(0), k_up) == Approx(0.006944).epsilon(1e-3));
  CHECK(sphere_factor(1, 5 * toward(30), k_up) == Approx(0.034641).epsilon(1e-3));
  CHECK(sphere_factor(1, 5 * toward(60), k_up) == Approx(0.02).epsilon(1e-3));
  CHECK(sphere_factor(1, 5 * toward(90), k_up) == Approx(0.001718).epsilon(2e-3));
}
