#include "evenlit/field/direct.hpp"

#include <Eigen/Geometry>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "rooms.hpp"

using namespace evenlit;
using namespace evenlit::testing;
using Eigen::Vector3d;

namespace {

const Visibility k_open({{-100, -100}, {100, -100}, {100, 100}, {-100, 100}}, {});
const Vector3d k_up = Vector3d::UnitZ();

Eigen::ArrayXf illuminances(const DirectLight& light, const Visibility& visibility, const Facets& facets) {
  Eigen::ArrayXf lx(facets.size());
  light.illuminances(visibility, facets, visibility.figures_of(facets.points(), facets.size()), 0, facets.size(),
                     lx.data());
  return lx;
}

double direct_illuminance(const Luminaire& luminaire, const IntensityDistribution& distribution,
                          const Visibility& visibility, const Vector3d& point, const Vector3d& normal,
                          OpeningDetail detail = {}) {
  Facets facet;
  facet.add(point, normal);
  return illuminances(DirectLight(luminaire, std::make_shared<LightSource>(distribution), detail), visibility,
                      facet)[0];
}

Luminaire luminaire_at(const Vector3d& position, const Opening& opening = {}) {
  return {.position_m = position,
          .room_from_luminaire = room_from_luminaire(0, 0, 0),
          .opening = opening,
          .distribution = 0,
          .output = 1,
          .level = 1,
          .watts = 0};
}

/// The linear table of a published-style point case: 15-degree steps.
IntensityDistribution table_of_15_degree_steps() {
  IntensityDistribution table{.gamma_deg = {0, 15, 30, 45, 60, 75, 90}, .c_deg = {0}, .candela = Eigen::ArrayXXd(7, 1)};
  table.candela << 1000, 950, 800, 500, 150, 20, 0;
  return table;
}

double lambert_disc_factor(double radius, double height, double offset) {
  // Howell, A Catalog of Radiation Heat Transfer Configuration Factors, B-13 (equation from memory).
  const double r = radius / offset;
  const double k = height / offset;
  const double z = 1 + k * k + r * r;
  return (1 - (z - 2 * r * r) / std::sqrt(z * z - 4 * r * r)) / 2;
}

}  // namespace

// Values: E = I cos(i) / d^2 evaluated to six decimals, in the manner of the point-source case of CIE 171:2006. Rays
// are in single precision: a relative 1e-6 is a few of its last digits.
TEST_CASE("a point source obeys the inverse-square and cosine laws", "[field][formula]") {
  struct Case {
    Vector3d point, normal;
    double isotropic, lambert, cos4, table;
  };
  const std::array cases = {
      Case{{2, 2, 0}, k_up, 88.419413, 111.111111, 111.111111, 111.111111},
      Case{{2.5, 2, 0}, k_up, 84.859172, 105.186267, 100.950903, 103.273730},
      Case{{3, 2, 0}, k_up, 75.493818, 90.000000, 76.843347, 86.866235},
      Case{{3, 3, 0}, k_up, 65.436847, 74.380165, 55.046774, 69.698951},
      Case{{4, 2, 0}, k_up, 50.932660, 53.254438, 30.676410, 46.479523},
      Case{{4, 4, 0}, k_up, 34.059480, 31.141869, 11.995961, 22.843555},
      Case{{2.75, 1.25, 0.762}, k_up, 117.239071, 133.132177, 98.239339, 124.700815},
      Case{{4, 2, 0.5}, {-1, 0, 0}, 48.499173, 47.590720, 22.659822, 38.201098},
      Case{{4, 2, 1.5}, {-1, 0, 0}, 101.859164, 76.800000, 16.588800, 39.718094},
      Case{{4, 2, 2.5}, {-1, 0, 0}, 181.650558, 55.363322, 0.789858, 4.272049},
      Case{{4, 3.5, 1.5}, {-1, 0, 0}, 64.223171, 41.522491, 5.654950, 13.920653},
      Case{{2.75, 1.25, 1.5}, {0.6, 0, 0.8}, 96.258864, 98.765432, 53.761092, 84.034095},
  };
  const Luminaire can = luminaire_at({2, 2, 3});
  const IntensityDistribution even = isotropic(10000);
  const IntensityDistribution lambert = cosine_power(1000, 1);
  const IntensityDistribution cos4 = cosine_power(1000, 4);
  for (const auto& c : cases) {
    CAPTURE(c.point.transpose());
    const auto lux = [&](const IntensityDistribution& d) {
      return direct_illuminance(can, d, k_open, c.point, c.normal);
    };
    // The last printed digit, and the table's look-up in single precision; the two cosines are read from tables in
    // steps of 0.05 degrees, whose chords lie above a curve as steep as cos^4 at 80 degrees by 1.4e-5.
    CHECK(lux(even) == Approx(c.isotropic).epsilon(1e-6));
    CHECK(lux(lambert) == Approx(c.lambert).epsilon(1e-5));
    CHECK(lux(cos4) == Approx(c.cos4).epsilon(1.5e-5));
    CHECK(lux(table_of_15_degree_steps()) == Approx(c.table).epsilon(1e-6));
  }
}

// H. C. Verma, Concepts of Physics, chapter 22, exercises; E = I cos / d^2 in each.
TEST_CASE("textbook problems of illumination come out", "[field][published]") {
  const Luminaire lamp = luminaire_at({0, 0, 1});
  const IntensityDistribution even = isotropic(4 * std::numbers::pi * 40);  // 40 lx at 1 m
  CHECK(direct_illuminance(lamp, even, k_open, {0, 0, 0}, k_up) == Approx(40));
  CHECK(direct_illuminance(lamp, even, k_open, {1, 0, 0}, k_up) == Approx(14.142136));  // printed: 14 lx

  const Luminaire plane_source = luminaire_at({0, 0, 2.4});
  const IntensityDistribution lambert = cosine_power(25 * 2.4 * 2.4, 1);
  CHECK(direct_illuminance(plane_source, lambert, k_open, {1.8, 0, 0}, k_up) == Approx(10.24).epsilon(2e-5));

  const Luminaire low = luminaire_at({0, 0, 0.6});
  const IntensityDistribution bulb = isotropic(4 * std::numbers::pi * 15 * 0.36);
  CHECK(direct_illuminance(low, bulb, k_open, {0.8, 0, 0}, k_up) == Approx(3.24));
}

// The panel's illuminance is M C with C by Howell B-3 and B-4; the luminous panel of CIE 171:2006 in manner.
TEST_CASE("a square panel lights like a square panel, not like a point", "[field][formula]") {
  const Luminaire panel =
      luminaire_at({2, 2, 3}, {.shape = Opening::Shape::rectangle, .width_m = 1, .length_m = 1, .height_m = 0});
  const IntensityDistribution lambert = cosine_power(1000, 1);
  struct Case {
    Vector3d point, normal;
    double lux;
  };
  const std::array cases = {
      Case{{2, 2, 0}, k_up, 107.149656},        Case{{2.5, 2, 0}, k_up, 101.812981},
      Case{{3, 2, 0}, k_up, 87.930528},         Case{{3, 3, 0}, k_up, 73.350730},
      Case{{4, 2, 0}, k_up, 53.126343},         Case{{4, 4, 0}, k_up, 31.390126},
      Case{{4, 2, 0.5}, {-1, 0, 0}, 46.300770}, Case{{4, 2, 1.5}, {-1, 0, 0}, 76.294019},
      Case{{4, 2, 2.5}, {-1, 0, 0}, 58.873891},
  };
  for (const auto& c : cases) {
    CAPTURE(c.point.transpose());
    // A hundredth of the error that the point formula has at 5 sizes.
    CHECK(direct_illuminance(panel, lambert, k_open, c.point, c.normal) == Approx(c.lux).epsilon(1e-4));
  }
}

TEST_CASE("a disc lights as Howell's disc factors say, near and far", "[field][formula]") {
  const auto [radius, height, offset] = GENERATE(table<double, double, double>(
      {{0.075, 1.7, 1.0}, {0.1, 1, 0.5}, {0.5, 2, 3}, {0.075, 0.15, 0.1}, {0.075, 0.3, 0.02}}));
  const Luminaire can = luminaire_at(
      {0, 0, height}, {.shape = Opening::Shape::disc, .width_m = 2 * radius, .length_m = 2 * radius, .height_m = 0});
  const double exitance = 1000;
  const double peak = exitance * radius * radius;  // I = L A with L = M / pi
  const double lux = direct_illuminance(can, cosine_power(peak, 1), k_open, {offset, 0, 0}, k_up);
  CHECK(lux == Approx(exitance * lambert_disc_factor(radius, height, offset)).epsilon(5e-4));  // promised with 25 sizes
}

// ANSI/IES LS-1, note to "inverse-square law": a point is within 1 % beyond five times the source's size. On the axis
// of a diffuse disc the excess is exactly 1 / (4 n^2).
TEST_CASE("a point in place of a disc is one percent high at five diameters", "[field][published]") {
  const double diameter = 0.2;
  const Opening disc{.shape = Opening::Shape::disc, .width_m = diameter, .length_m = diameter, .height_m = 0};
  const Luminaire can = luminaire_at({0, 0, 5 * diameter}, disc);
  const IntensityDistribution lambert = cosine_power(100, 1);
  const double divided = direct_illuminance(can, lambert, k_open, {0, 0, 0}, k_up);
  const double as_point = direct_illuminance(can, lambert, k_open, {0, 0, 0}, k_up, {.point_beyond = 4});
  CHECK(as_point / divided - 1 == Approx(0.01).epsilon(0.02));  // the division's own 5e-4 against an excess of 1e-2
}

TEST_CASE("a facet that faces away, or lies in the ceiling, gets nothing", "[field][exact]") {
  const Luminaire can = luminaire_at({0, 0, 2.5});
  const IntensityDistribution even = isotropic(1000);
  CHECK(direct_illuminance(can, even, k_open, {1, 0, 0}, -k_up) == 0);
  CHECK(direct_illuminance(can, even, k_open, {1, 0, 2.5}, -k_up) == 0);
  CHECK(direct_illuminance(can, even, k_open, {0, 0, 2.5}, k_up) == 0);
}

TEST_CASE("a wall between hides the luminaire", "[field][exact]") {
  const Visibility l_shape({{0, 0}, {6, 0}, {6, 2}, {2, 2}, {2, 6}, {0, 6}}, {});
  const Luminaire can = luminaire_at({1, 5, 2.5});
  const IntensityDistribution even = isotropic(1000);
  CHECK(direct_illuminance(can, even, l_shape, {5, 1, 0}, k_up) == 0);
  CHECK(direct_illuminance(can, even, l_shape, {1, 1, 0}, k_up) ==
        direct_illuminance(can, even, k_open, {1, 1, 0}, k_up));
}

TEST_CASE("horizontal angle 0 points along +x and turns counter-clockwise with the can", "[field][exact]") {
  // A quadrant beam: light only between C 0 and C 90.
  IntensityDistribution quadrant{
      .gamma_deg = {0, 90}, .c_deg = {0, 90, 91, 359, 360}, .candela = Eigen::ArrayXXd(2, 5)};
  quadrant.candela << 0, 0, 0, 0, 0, 900, 900, 0, 0, 900;
  Luminaire can = luminaire_at({0, 0, 1});
  const auto lux = [&](double x, double y) { return direct_illuminance(can, quadrant, k_open, {x, y, 0}, k_up); };
  CHECK(lux(1, 1) > 0);
  CHECK(lux(-1, 1) == 0);
  CHECK(lux(-1, -1) == 0);
  can.room_from_luminaire = room_from_luminaire(0, 0, 90);
  CHECK(lux(1, 1) == 0);
  CHECK(lux(-1, 1) > 0);
}

TEST_CASE("a tilted can throws its peak where it is aimed", "[field][exact]") {
  Luminaire can = luminaire_at({0, 0, 2});
  const double tilt_deg = 30;
  can.room_from_luminaire = room_from_luminaire(tilt_deg, 90, 0);
  const double reach = 2 * std::tan(tilt_deg * std::numbers::pi / 180);
  const double d2 = 4 + reach * reach;
  // Along the aim the beam has its peak: E = I cos(30 deg) / d^2.
  CHECK(direct_illuminance(can, cosine_power(1000, 20), k_open, {0, reach, 0}, k_up) ==
        Approx(1000 * 2 / std::sqrt(d2) / d2).epsilon(1e-6));  // rounding
}

TEST_CASE("openings of every shape send all their light once", "[field][property]") {
  const auto shape = GENERATE(Opening::Shape::point, Opening::Shape::disc, Opening::Shape::rectangle);
  const Luminaire can = luminaire_at({0.3, -0.2, 1}, {.shape = shape, .width_m = 0.4, .length_m = 0.3, .height_m = 0});
  const IntensityDistribution beam = cosine_power(1000, 6);
  const DirectLight light(can, std::make_shared<LightSource>(beam));
  constexpr double k_step = 0.04;
  constexpr int k_side = 200;
  Facets facets;
  for (int i = 0; i < k_side * k_side; ++i) {
    facets.add({-4 + k_step * (i % k_side + 0.5), -4 + k_step * (i / k_side + 0.5), 0}, k_up);
  }
  const double flux = k_step * k_step * illuminances(light, k_open, facets).cast<double>().sum();
  // All of a cos^6 beam but (1/17)^3.5 = 5e-5 falls within 4 m from 1 m up; midpoint sums and the
  // step from divided openings to points at 25 sizes add as much.
  CHECK(flux == Approx(lumens(beam)).epsilon(3e-4));
}

TEST_CASE("a luminaire loses light into the surface that it lies on, and only there", "[field][exact]") {
  Scene scene = box_room(4, 4, 3);
  place_boxes(scene, {{.name = "shelf", .centre_m = {1, 1}, .half_m = {0.5, 0.5}, .bottom_m = 0, .top_m = 1.2}});
  const IntensityDistribution even = isotropic(1000);
  const auto lumens_at = [&](const Vector3d& position) {
    return DirectLight(luminaire_at(position), std::make_shared<LightSource>(even)).lumens_into(scene);
  };
  // Half of an even light is below a ceiling or above a shelf, a quarter in an edge; halves of equal rings and steps
  // add up exactly but for rounding to single precision.
  CHECK(lumens_at({2, 2, 2}) == Approx(1000).epsilon(1e-6));
  CHECK(lumens_at({2, 2, 3}) == Approx(500).epsilon(1e-6));
  CHECK(lumens_at({1, 1, 1.2}) == Approx(500).epsilon(1e-6));
  CHECK(lumens_at({2, 4, 3}) == Approx(250).epsilon(1e-6));
  CHECK(lumens_at({3, 3, 1.2}) == Approx(1000).epsilon(1e-6));  // level with the shelf, away from it
  CHECK(lumens_at({1.5, 3, 2}) == Approx(1000).epsilon(1e-6));  // in the plane of its side, above it
}
