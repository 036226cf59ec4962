#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "evenlit/field/response.hpp"
#include "rooms.hpp"

using namespace evenlit;
using namespace evenlit::testing;
using Eigen::Vector3d;

namespace {

const Vector3d k_up = Vector3d::UnitZ();

/// Light straight from one luminaire `height_m` over the origin of a black hall, aimed down.
double direct_lx(const IntensityDistribution& distribution, const Opening& opening, double height_m,
                 const Receiver& receiver = {{0, 0, 0}, k_up}) {
  constexpr double k_wide_m = 20;
  Scene scene = room_over({{-k_wide_m, -k_wide_m}, {k_wide_m, -k_wide_m}, {k_wide_m, k_wide_m}, {-k_wide_m, k_wide_m}},
                          k_wide_m, {0, 0, 0});
  add_point(scene, {0, 0, height_m}, distribution);
  scene.luminaires[0].opening = opening;
  constexpr double k_coarse_m = 20;  // nothing is reflected
  return response(scene, {receiver}, MeshDetail{.patch_size_m = k_coarse_m}).direct_lx(0, 0);
}

Opening disc(double diameter_m) {
  return {.shape = Opening::Shape::disc, .width_m = diameter_m, .length_m = diameter_m, .height_m = 0};
}

Opening square(double side_m) {
  return {.shape = Opening::Shape::rectangle, .width_m = side_m, .length_m = side_m, .height_m = 0};
}

/// Declared with `OpeningDetail`: four hundredths of a percent for a diffuse opening at 25 sizes; and as much again for
/// the division of nearer ones.
constexpr double k_division = 5e-4;

}  // namespace

// H. C. Verma, Concepts of Physics, chapter 22, exercise: 628 lm all around, an area at 1 m, 37 degrees off; the book's
// roundings (50 cd, cos = 4/5) give 40 lx.
TEST_CASE("an area turned away by 37 degrees", "[field][published]") {
  const double turn = 37 * std::numbers::pi / 180;
  const double lux = direct_lx(isotropic(628), {}, 1, {{0, 0, 0}, {std::sin(turn), 0, std::cos(turn)}});
  CHECK(lux == Approx(39.911532).epsilon(1e-6));  // the last printed digit, single precision of the table
}

// Trigonometry text: 90 cd over a book, 25 degrees off the vertical, 18 lm/ft2 wanted: E = I cos / d^2 at 2.128741 ft.
TEST_CASE("how far from the book the lamp may be", "[field][formula]") {
  constexpr double k_metres_per_foot = 0.3048;
  const double off = 25 * std::numbers::pi / 180;
  const double d = 2.128741 * k_metres_per_foot;
  const double lux =
      direct_lx(isotropic(90 * 4 * std::numbers::pi), {}, d * std::cos(off), {{d * std::sin(off), 0, 0}, k_up});
  CHECK(lux * k_metres_per_foot * k_metres_per_foot == Approx(18).epsilon(2e-6));  // half the last digit, twice
}

// E = I / d^2: 560 / 5.5^2 = 18.512397 lm/ft2.
TEST_CASE("560 cd straight down from five and a half feet", "[field][formula]") {
  CHECK(direct_lx(cosine_power(560, 2), {}, 5.5 * 0.3048) == Approx(199.265780).epsilon(1e-7));  // last printed digit
}

// ANSI/IES LS-1, note to "inverse-square law", spelt out: excess of the point formula on the axis of a diffuse opening
// n sizes away: 1 / (4 n^2) for a disc, from Howell B-3 for a square.
TEST_CASE("the five-times rule from half a size to ten", "[field][formula]") {
  struct Case {
    double sizes, disc_excess, side_excess, diagonal_excess;
  };
  const auto c = GENERATE(values<Case>({{0.5, 1, 1.29774198, 0.65398669},
                                        {1, 0.25, 0.32930167, 0.16549916},
                                        {2, 0.0625, 0.08301624, 0.04158380},
                                        {3, 0.02777778, 0.03697123, 0.01850173},
                                        {4, 0.015625, 0.02081214, 0.01041131},
                                        {5, 0.01, 0.01332458, 0.00666446},
                                        {6, 0.00694444, 0.00925502, 0.00462856},
                                        {7, 0.00510204, 0.00680043, 0.00340078},
                                        {8, 0.00390625, 0.00520699, 0.00260383},
                                        {9, 0.00308642, 0.00411438, 0.00205740},
                                        {10, 0.0025, 0.00333278, 0.00166653}}));
  constexpr double k_height_m = 1.5;
  const double size_m = k_height_m / c.sizes;
  const IntensityDistribution lambert = cosine_power(500, 1);
  const double as_point = direct_lx(lambert, {}, k_height_m);
  CAPTURE(c.sizes);
  CHECK(as_point / direct_lx(lambert, disc(size_m), k_height_m) == Approx(1 + c.disc_excess).epsilon(k_division));
  CHECK(as_point / direct_lx(lambert, square(size_m), k_height_m) == Approx(1 + c.side_excess).epsilon(k_division));
  const double side_m = size_m / std::numbers::sqrt2;
  CHECK(as_point / direct_lx(lambert, square(side_m), k_height_m) == Approx(1 + c.diagonal_excess).epsilon(k_division));
}

// Howell B-12, R^2 / (R^2 + h^2), and B-13 (equations from memory, agreeing with numerical integration).
TEST_CASE("diffuse discs near and far, on and off their axis", "[field][formula]") {
  struct Case {
    double radius, height, aside, factor;
  };
  const auto c = GENERATE(values<Case>({{1, 1, 0, 0.5},
                                        {1, 2, 0, 0.2},
                                        {0.5, 0.5, 0, 0.5},
                                        {0.1, 1, 0, 0.00990099},
                                        {2, 1, 0, 0.8},
                                        {0.075, 1.7, 0, 0.00194259},
                                        {1, 1, 1, 0.276393},
                                        {1, 1, 2, 0.052786},
                                        {1, 2, 1, 0.146447},
                                        {0.075, 1.7, 1, 0.001073933},
                                        {0.5, 2, 3, 0.006040242},
                                        {0.1, 1, 0.5, 0.006379437}}));
  constexpr double k_exitance = 1000;
  const IntensityDistribution lambert = cosine_power(k_exitance * c.radius * c.radius, 1);  // I = L A, L = M / pi
  const double lux = direct_lx(lambert, disc(2 * c.radius), c.height, {{c.aside, 0, 0}, k_up});
  CAPTURE(c.radius, c.height, c.aside);
  CHECK(lux / k_exitance == Approx(c.factor).margin(0.5e-6).epsilon(k_division));
}

// The panel of 1 x 1 m, 3 m up, in the manner of CIE 171:2006, clause 5.3: first as a point would light (one piece),
// then M C with C by Howell B-3 and B-4.
TEST_CASE("a square panel and the point in its place", "[field][formula]") {
  struct Case {
    Vector3d point, normal;
    double panel, as_point;
  };
  const Vector3d west = -Vector3d::UnitX();
  const auto c = GENERATE_COPY(values<Case>({{{0, 0, 0}, k_up, 107.149656, 111.111111},
                                             {{0.5, 0, 0}, k_up, 101.812981, 105.186267},
                                             {{1, 0, 0}, k_up, 87.930528, 90},
                                             {{1, 1, 0}, k_up, 73.350730, 74.380165},
                                             {{2, 0, 0}, k_up, 53.126343, 53.254438},
                                             {{2, 2, 0}, k_up, 31.390126, 31.141869},
                                             {{2, 0, 1}, west, 61.137242, 62.5},
                                             {{2, 0, 2}, west, 81.885189, 80}}));
  const IntensityDistribution lambert = cosine_power(1000, 1);
  CAPTURE(c.point.transpose());
  CHECK(direct_lx(lambert, {}, 3, {c.point, c.normal}) == Approx(c.as_point).epsilon(1e-5));  // chords of the table
  CHECK(direct_lx(lambert, square(1), 3, {c.point, c.normal}) == Approx(c.panel).epsilon(1e-4));
}
