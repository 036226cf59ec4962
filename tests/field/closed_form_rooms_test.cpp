#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "evenlit/field/response.hpp"
#include "reference/face_points.hpp"
#include "rooms.hpp"

using namespace evenlit;
using namespace evenlit::testing;
using Eigen::Vector3d;
using reference::face_points;
using reference::mean_over;
using reference::sum_over;

namespace {

const Vector3d k_up = Vector3d::UnitZ();
const Vector3d k_west = -Vector3d::UnitX();

/// Lights a plane square to the aim, `distance_m` away, evenly: I = E d^2 / cos^3, nothing beyond `last_deg`. In steps
/// of 0.05 degrees chords lie above the curve by less than 5e-6 of it.
IntensityDistribution even_on_plane(double lux, double distance_m, double last_deg) {
  return tabulated([=](double gamma) { return lux * distance_m * distance_m / std::pow(std::cos(gamma), 3); },
                   last_deg);
}

void aim(Luminaire& luminaire, double tilt_deg, double toward_deg) {
  luminaire.room_from_luminaire = room_from_luminaire(tilt_deg, toward_deg, 0);
}

Box box(const Eigen::Vector2d& low, const Eigen::Vector2d& high, double bottom_m, double top_m, double reflectance) {
  return {.name = "box",
          .centre_m = (low + high) / 2,
          .half_m = (high - low) / 2,
          .bottom_m = bottom_m,
          .top_m = top_m,
          .reflectance = reflectance};
}

constexpr double k_lit_lx = 1000;
constexpr double k_reflectance = 0.5;

/// Light reflected once by a surface that is lit to `k_lit_lx`, over that surface's exitance: the configuration factor.
void check_factor(const Scene& scene, const Receiver& receiver, double expected) {
  const Response r = response(scene, {receiver}, MeshDetail{.patch_size_m = 0.25});
  const double factor = r.indirect_lx(0, 0) / (k_reflectance * k_lit_lx);
  CAPTURE(receiver.position_m.transpose());
  CHECK(factor == Approx(expected).margin(0.5e-6).epsilon(5e-4));  // last printed digit; a tenth of what is promised
}

/// A floor of 4 x 4 m, all else black, under a lamp that lights it evenly.
Scene lit_floor() {
  Scene scene = box_room(4, 4, 3, {k_reflectance, 0, 0});
  add_point(scene, {2, 2, 2.9}, even_on_plane(k_lit_lx, 2.9, 46));
  return scene;
}

/// The same with a reflecting square of half a metre alone, on a black block 0.1 m high, whose sides get no light.
Scene lit_square() {
  Scene scene = box_room(4, 4, 3.1, {0, 0, 0});
  place_boxes(scene, {box({1.75, 1.75}, {2.25, 2.25}, 0, 0.1, k_reflectance)});
  add_point(scene, {2, 2, 3}, even_on_plane(k_lit_lx, 2.9, 46));
  return scene;
}

}  // namespace

// In the manner of CIE 171:2006, clause 5.6. Factors: Howell B-3 and B-4 by corner algebra, evaluated to six decimals.
TEST_CASE("light reflected once by an evenly lit square above it", "[field][formula]") {
  struct Case {
    double offset, small, large;
  };
  const auto c = GENERATE(values<Case>({{0, 0.008761, 0.357685},
                                        {0.25, 0.008643, 0.355666},
                                        {0.75, 0.007776, 0.339757},
                                        {1.25, 0.006391, 0.309387},
                                        {1.75, 0.004914, 0.267952},
                                        {2, 0.004236, 0.244719}}));
  check_factor(lit_square(), {{2 + c.offset, 2, 3.1}, -k_up}, c.small);
  check_factor(lit_floor(), {{2 + c.offset, 2, 3}, -k_up}, c.large);
}

TEST_CASE("light reflected once by an evenly lit square on a wall beside it", "[field][formula]") {
  struct Case {
    double height, small, large;
  };
  const auto c = GENERATE(values<Case>({{0.25, 0.002458, 0.451226},
                                        {0.5, 0.004477, 0.403838},
                                        {1, 0.006407, 0.317550},
                                        {1.5, 0.006104, 0.246230},
                                        {2, 0.004947, 0.190136},
                                        {2.5, 0.003762, 0.147123},
                                        {3, 0.002806, 0.114496}}));
  check_factor(lit_square(), {{4, 2, 0.1 + c.height}, k_west}, c.small);
  check_factor(lit_floor(), {{4, 2, c.height}, k_west}, c.large);
}

namespace {

/// In the manner of CIE 171:2006, clause 5.7: a wall of 4 x 3 m, evenly lit from 1 m; a black screen as wide, 2 m
/// before it. Points see the wall but for a strip at its foot.
Scene lit_wall_behind_screen(double screen_m) {
  Scene scene = box_room(4, 4, 3, {0, 0, 0});
  scene.surfaces[2].reflectance = k_reflectance;  // the wall in y = 0
  constexpr double k_thickness_m = 2e-4;          // moves the strip's edge by as much
  place_boxes(scene, {box({0, 2 - k_thickness_m / 2}, {4, 2 + k_thickness_m / 2}, 0, screen_m, 0)});
  add_point(scene, {2, 1, 1.5}, even_on_plane(k_lit_lx, 1, 70));
  aim(scene.luminaires[0], 90, 270);
  return scene;
}

struct Seen {
  Vector3d point;
  double factor;
};

/// Light from the wall over the wall's exitance.
void check_behind_screen(double screen_m, const Vector3d& normal, const std::vector<Seen>& seen) {
  std::vector<Receiver> receivers;
  for (const Seen& s : seen) receivers.push_back({s.point, normal});
  const Response r = response(lit_wall_behind_screen(screen_m), receivers, MeshDetail{.patch_size_m = 0.2});
  const Field field = field_at(r, Eigen::VectorXd::Ones(1));
  constexpr double k_exitance = k_reflectance * k_lit_lx;
  for (Eigen::Index i = 0; i < std::ssize(seen); ++i) {
    CAPTURE(seen[i].point.transpose(), field.error_lx[i] / k_exitance);
    // The last printed digit, and what the engine says of its error, most where little of the wall is seen.
    const double margin = 0.5e-6 + field.error_lx[i] / k_exitance;
    CHECK(r.indirect_lx(i, 0) / k_exitance == Approx(seen[i].factor).margin(margin).epsilon(0));
    CHECK(field.error_lx[i] <= 0.1 * k_exitance * seen[i].factor);
  }
}

}  // namespace

// Factor of the whole wall less the factor of the hidden strip, by Howell B-3 and B-4.
TEST_CASE("light of a wall half hidden by a screen", "[field][formula]") {
  check_behind_screen(1.5, -Vector3d::UnitY(),
                      {{{2, 4, 0.25}, 0.008743},
                       {{2, 4, 0.5}, 0.020489},
                       {{2, 4, 1}, 0.053546},
                       {{2, 4, 1.5}, 0.095005},
                       {{2, 4, 2}, 0.132365},
                       {{2, 4, 2.5}, 0.153761},
                       {{3, 4, 0.25}, 0.008236},
                       {{3, 4, 0.5}, 0.019236},
                       {{3, 4, 1}, 0.049983},
                       {{3, 4, 1.5}, 0.088364},
                       {{3, 4, 2}, 0.122999},
                       {{3, 4, 2.5}, 0.143089}});
  check_behind_screen(0.5, k_up,
                      {{{2, 1, 0}, 0.295651},
                       {{2, 2.25, 0}, 0},
                       {{2, 2.5, 0}, 0.019421},
                       {{2, 3, 0}, 0.053931},
                       {{2, 3.5, 0}, 0.051078},
                       {{2, 4, 0}, 0.042572},
                       {{3, 1, 0}, 0.270174},
                       {{3, 2.25, 0}, 0},
                       {{3, 2.5, 0}, 0.017923},
                       {{3, 3, 0}, 0.049809},
                       {{3, 3.5, 0}, 0.047517},
                       {{3, 4, 0}, 0.039919}});
}

// Fractions: solid angles of rectangles, 4 atan(a b / (h sqrt(a^2 + b^2 + h^2))), for the even lamp; configuration
// factors of the faces (Howell B-3, B-4) for the diffuse one.
TEST_CASE("each surface gets its share of a lamp's light and nothing is lost", "[field][formula]") {
  enum { floor, ceiling, south, east, north, west };
  const auto light_on_faces = [](const Vector3d& lamp, const IntensityDistribution& distribution) {
    Scene scene = box_room(4, 4, 3, {0, 0, 0});
    add_point(scene, lamp, distribution);
    const auto points = face_points(scene.surfaces);
    const Eigen::VectorXd lux = response(scene, points.receivers, MeshDetail{.patch_size_m = 1}).direct_lx.col(0);
    std::array<double, 6> flux{};
    for (int i = 0; i < 6; ++i) flux[i] = sum_over(points, lux, i);
    return flux;
  };
  // Quadrature of light that is smooth but for the last metre below the ceiling: 1e-5. The last printed digit.
  const auto part = [](double value) { return Approx(value).margin(0.5e-6).epsilon(2e-5); };

  const auto even = light_on_faces({2, 2, 3}, isotropic(10000));
  CHECK(even[floor] / 16 == part(62.222963));
  CHECK(even[west] / 12 == part(83.425679));
  CHECK(even[south] / 12 == part(83.425679));
  CHECK(even[ceiling] == 0);
  CHECK(even[floor] + even[south] + even[east] + even[north] + even[west] == part(5000));

  const auto diffuse = light_on_faces({2, 2, 3}, cosine_power(1000 / std::numbers::pi, 1));
  CHECK(diffuse[floor] / 1000 == part(0.357685));
  CHECK(diffuse[east] / 1000 == part(0.160579));

  const auto aside = light_on_faces({1, 1.5, 3}, cosine_power(1000 / std::numbers::pi, 1));
  CHECK(aside[floor] / 1000 == part(0.318978));
  CHECK(aside[west] / 1000 == part(0.289897));
  CHECK(aside[east] / 1000 == part(0.086192));
  CHECK(aside[south] / 1000 == part(0.197229));
  CHECK(aside[north] / 1000 == part(0.107703));
}

// Howell B-106; 0.0836 printed as a worked example of a heat-transfer library.
TEST_CASE("a rectangle over a corner gets its share of an even lamp", "[field][published]") {
  Scene scene = box_room(1, 2, 1, {0, 0, 0});
  add_point(scene, {0, 0, 0.5}, isotropic(1));
  const auto points = face_points({scene.surfaces[0]}, 2);
  CHECK(sum_over(points, response(scene, points.receivers, MeshDetail{.patch_size_m = 1}).direct_lx.col(0)) ==
        Approx(0.083604).margin(1e-6));
}

// Geometry: published errata to CIE 171:2006, clause 5.8 (4 x 4 x 4 m, uniform diffusers). The mean is exact for any
// closed room of one reflectance.
TEST_CASE("mean of the indirect light in a uniform cube", "[field][exact]") {
  struct Case {
    double reflectance, mean_lx;
  };
  const auto c = GENERATE(values<Case>({{0.05, 5.482456},
                                        {0.1, 11.574074},
                                        {0.2, 26.041667},
                                        {0.3, 44.642857},
                                        {0.4, 69.444444},
                                        {0.5, 104.166667},
                                        {0.6, 156.25},
                                        {0.7, 243.055556},
                                        {0.8, 416.666667},
                                        {0.9, 937.5},
                                        {0.95, 1979.166667}}));
  Scene scene = box_room(4, 4, 4, {c.reflectance, c.reflectance, c.reflectance});
  add_point(scene, {2, 2, 2}, isotropic(10000));
  const auto points = face_points({scene.surfaces[0]});  // all faces are alike
  const Response r = response(scene, points.receivers);
  CHECK(mean_over(points, r.indirect_lx.col(0)) == Approx(c.mean_lx).epsilon(1e-3));  // a fifth of what is promised
  CHECK(mean_over(points, r.direct_lx.col(0)) == Approx(104.166667).epsilon(1e-5));   // quadrature
}

// Computed from two discretisations that bracket the values; the margin beside each is that bracket.
TEST_CASE("indirect light at points of a uniform cube of reflectance 0.3", "[field][reference]") {
  struct Case {
    double u, v, lux, margin;
  };
  const auto c = GENERATE(values<Case>({{2, 2, 49.04, 0.01},
                                        {1, 2, 48.36, 0.01},
                                        {1, 1, 46.62, 0.01},
                                        {0.5, 2, 46.89, 0.01},
                                        {0.5, 0.5, 40.61, 0.02},
                                        {0.25, 0.25, 35.16, 0.03}}));
  Scene scene = box_room(4, 4, 4, {0.3, 0.3, 0.3});
  add_point(scene, {2, 2, 2}, isotropic(10000));
  const Field field = field_at(response(scene, {{{c.u, c.v, 0}, k_up}}), Eigen::VectorXd::Ones(1));
  const double indirect_lx = field.total_lx[0] - field.direct_lx[0];
  CAPTURE(c.u, c.v, field.error_lx[0]);
  CHECK(indirect_lx == Approx(c.lux).margin(c.margin + field.error_lx[0]).epsilon(0));  // as both say of themselves
}
