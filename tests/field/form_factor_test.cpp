#include "evenlit/field/form_factor.hpp"

#include <array>
#include <catch2/catch.hpp>
#include <vector>

#include "evenlit/base/polygon.hpp"

using namespace evenlit;
using Eigen::Vector3d;

namespace {

using Quad = std::array<Vector3d, 4>;

/// Horizontal rectangle, facing down, corners given by its ranges.
Quad facing_down(double x0, double x1, double y0, double y1, double z) {
  return {Vector3d{x0, y0, z}, {x0, y1, z}, {x1, y1, z}, {x1, y0, z}};
}

Quad facing_up(double x0, double x1, double y0, double y1, double z) {
  return {Vector3d{x0, y0, z}, {x1, y0, z}, {x1, y1, z}, {x0, y1, z}};
}

/// Rectangle in the plane x = x, facing +x.
Quad facing_plus_x(double x, double y0, double y1, double z0, double z1) {
  return {Vector3d{x, y0, z0}, {x, y1, z0}, {x, y1, z1}, {x, y0, z1}};
}

const Vector3d k_up = Vector3d::UnitZ();

/// Half a unit of the last of six printed decimals.
Approx printed(double value) { return Approx(value).margin(0.5e-6).epsilon(0); }

}  // namespace

// Values: closed form of Howell's catalogue B-3 evaluated to six decimals.
TEST_CASE("configuration factor of a parallel rectangle over a corner", "[field][formula]") {
  struct Case {
    double a, b, c, expected;
  };
  const auto [a, b, c, expected] = GENERATE(values<Case>({{1, 1, 1, 0.138532},
                                                          {1, 2, 1, 0.167375},
                                                          {2, 2, 1, 0.207757},
                                                          {0.5, 0.5, 1, 0.059864},
                                                          {2, 2, 3, 0.089421},
                                                          {6, 4, 2.4, 0.206089},
                                                          {10, 10, 1, 0.247971},
                                                          {0.3048, 0.6096, 1.6764, 0.018987}}));
  CHECK(configuration_factor({0, 0, 0}, k_up, facing_down(0, a, 0, b, c)) == printed(expected));
}

// Values: closed form of Howell's catalogue B-4 evaluated to six decimals.
TEST_CASE("configuration factor of a rectangle standing on the receiver's plane", "[field][formula]") {
  struct Case {
    double w, h, d, expected;
  };
  const auto [w, h, d, expected] = GENERATE(values<Case>({{1, 1, 1, 0.055734},
                                                          {2, 1, 1, 0.068697},
                                                          {1, 2, 1, 0.095068},
                                                          {2, 2.4, 1, 0.136071},
                                                          {3, 2.4, 0.5, 0.194967},
                                                          {0.5, 0.5, 1, 0.013928},
                                                          {10, 10, 1, 0.221739}}));
  CHECK(configuration_factor({d, 0, 0}, k_up, facing_plus_x(0, 0, w, 0, h)) == printed(expected));
}

TEST_CASE("the part of a polygon below the horizon adds nothing", "[field][exact]") {
  const Vector3d point{1, 0.3, 0};
  CHECK(configuration_factor(point, k_up, facing_plus_x(0, 0, 2, -3, 1.5)) ==
        Approx(configuration_factor(point, k_up, facing_plus_x(0, 0, 2, 0, 1.5))).epsilon(1e-12));  // rounding
  CHECK(configuration_factor(point, k_up, facing_up(0, 1, 0, 1, -1)) == 0);
}

TEST_CASE("a point behind a polygon sees none of its light", "[field][exact]") {
  CHECK(configuration_factor({0.5, 0.5, 2}, -k_up, facing_down(0, 1, 0, 1, 1)) == 0);
}

TEST_CASE("the factors of a polygon's parts add up to the whole's", "[field][property]") {
  const Vector3d point{0.2, 0.9, 0};
  const double whole = configuration_factor(point, k_up, facing_down(0, 2, 0, 1, 1.3));
  const double parts = configuration_factor(point, k_up, facing_down(0, 0.7, 0, 1, 1.3)) +
                       configuration_factor(point, k_up, facing_down(0.7, 2, 0, 1, 1.3));
  CHECK(parts == Approx(whole).epsilon(1e-12));  // rounding
}

// Howell C-11; "published" values 0.1998, 0.4756, 0.4153 and 0.827 agree to their printed digits (Incropera et al.,
// Fundamentals of Heat and Mass Transfer, Table 13.2; Siegel and Howell, 4th ed.).
TEST_CASE("form factor of opposed equal rectangles", "[field][formula]") {
  struct Case {
    double a, b, c, expected;
  };
  const auto [a, b, c, expected] = GENERATE(values<Case>({{1, 1, 1, 0.199825},
                                                          {1, 1.5, 0.5, 0.475576},
                                                          {0.1, 0.1, 0.05, 0.415253},
                                                          {2, 1, 1, 0.285875},
                                                          {1, 1, 2, 0.068590},
                                                          {4, 4, 2.4, 0.354494},
                                                          {5, 4, 2.4, 0.389596},
                                                          {10, 10, 1, 0.826995},
                                                          {4.2672, 3.6576, 2.4384, 0.344291}}));
  CHECK(exchange_area(facing_up(0, a, 0, b, 0), facing_down(0, a, 0, b, c)) / (a * b) == printed(expected));
}

// Howell C-14; cube value 0.200 printed in Incropera, Table 13.2.
TEST_CASE("form factor of rectangles that share an edge at a right angle", "[field][formula]") {
  struct Case {
    double w, h, l, expected;
  };
  const auto [w, h, l, expected] = GENERATE(values<Case>({{1, 1, 1, 0.200044},
                                                          {1, 2, 1, 0.232853},
                                                          {2, 1, 1, 0.116426},
                                                          {1, 1, 2, 0.240636},
                                                          {4, 2.4, 5, 0.170814},
                                                          {5, 2.4, 4, 0.134388},
                                                          {2.4, 4, 5, 0.284689},
                                                          {4.2672, 2.4384, 3.6576, 0.150497},
                                                          {3.6576, 2.4384, 4.2672, 0.177357}}));
  CHECK(exchange_area(facing_up(0, w, 0, l, 0), facing_plus_x(0, 0, l, 0, h)) / (w * l) == printed(expected));
}

// Published: 0.07182 and 0.0605 (A. J. Chapman, Fundamentals of Heat Transfer, 1987, pp. 734-738, as worked examples of
// a heat-transfer library; the set-ups are our reading, settled by the values), 0.1541243 (polygon example).
TEST_CASE("form factors of offset rectangles and of a pentagon", "[field][published]") {
  CHECK(exchange_area(facing_up(0.1, 0.6, 0, 0.5, 0), facing_plus_x(0, 0, 0.5, 0.2, 0.5)) / 0.25 == printed(0.071818));
  CHECK(exchange_area(facing_up(0, 0.1, 0, 0.2, 0), facing_plus_x(0, 0.2, 0.5, 0, 0.5)) / 0.02 ==
        Approx(0.060505).margin(0.5e-6 + 0.02 * 0.060505e-3));
  CHECK(exchange_area(facing_up(0, 1, 0, 1, 0), facing_down(1, 2, 0, 1, 1)) == printed(0.086050));
  CHECK(exchange_area(facing_up(0, 1, 0, 1, 0), facing_down(1, 2, 1, 2, 1)) == printed(0.043327));

  // The square stands on x = 0 and the pentagon touches it along y = 0...1; slanting edges meet it at a corner. Half
  // a unit of the last of seven printed decimals, and rounding.
  const std::array<Vector3d, 5> pentagon{Vector3d{0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {0.5, 2, 0}, {0, 1, 0}};
  CHECK(exchange_area(pentagon, facing_plus_x(0, 0, 1, 0, 1)) / 1.5 == Approx(0.1541243).margin(0.5e-7).epsilon(1e-6));
}

TEST_CASE("exchange areas are reciprocal", "[field][property]") {
  const Quad a = facing_up(0.3, 1.1, 0.2, 0.9, 0);
  const Quad b = facing_plus_x(0, 0.5, 2, 0.1, 1.3);
  CHECK(exchange_area(a, b) == Approx(exchange_area(b, a)).epsilon(1e-12));  // rounding
  CHECK(exchange_area(a, b) > 0);
}

TEST_CASE("a closed box sends out all it should", "[field][exact]") {
  const Quad floor = facing_up(0, 5, 0, 4, 0);
  const double to_ceiling = exchange_area(floor, facing_down(0, 5, 0, 4, 2.4));
  const double to_x_wall = exchange_area(floor, facing_plus_x(0, 0, 4, 0, 2.4));
  const Quad y_wall{Vector3d{5, 0, 0}, {0, 0, 0}, {0, 0, 2.4}, {5, 0, 2.4}};
  const double to_y_wall = exchange_area(floor, y_wall);
  CHECK(to_ceiling + 2 * to_x_wall + 2 * to_y_wall == Approx(20).epsilon(1e-12));  // rounding
}

// Walls that miss a right angle by a little, and a floor cut level with its second corner, which leaves a narrow strip.
// Edges are then neither parallel nor square, they cross or end next to each other, and the strip's large terms nearly
// cancel. Tolerance: as documented.
TEST_CASE("a closed room slightly out of square sends out all it should", "[field][exact]") {
  const double off = GENERATE(1e-5, 1e-4, 1e-3, 0.01, 0.1);
  const std::array<Vector3d, 4> plan{Vector3d{0, 0, 0}, {4, 2 * off, 0}, {4 + 3 * off, 3 - off, 0}, {-off, 3, 0}};
  const Vector3d up = 2.4 * k_up;
  std::vector<std::vector<Vector3d>> above{{plan[3] + up, plan[2] + up, plan[1] + up, plan[0] + up}};
  for (int i = 0; i < 4; ++i) {
    const Vector3d& from = plan[i];
    const Vector3d& to = plan[(i + 1) % 4];
    const Vector3d middle = (from + to) / 2;
    above.push_back({middle, from, from + up, middle + up});
    above.push_back({to, middle, middle + up, to + up});
  }
  const Vector3d level = plan[1].y() / plan[3].y() * plan[3];
  for (const auto& piece : {std::vector{plan[0], plan[1], level}, std::vector{level, plan[1], plan[2], plan[3]}}) {
    double sum = 0;
    for (const auto& other : above) sum += exchange_area(piece, other);
    CAPTURE(off, piece.size());
    CHECK(sum == Approx(vector_area(piece).norm()).epsilon(1e-3));
  }
}
