#include "reference/path_tracer.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include "reference/face_points.hpp"
#include "rooms.hpp"

#ifdef EVENLIT_THREADS
#include <tbb/global_control.h>
#endif

using namespace evenlit;
using namespace evenlit::reference;
using Eigen::Vector3d;

namespace {

const Vector3d k_up = Vector3d::UnitZ();

}  // namespace

// What the reference is worth: first it has to find what is known exactly.

// Howell B-13: C = (1 - (Z - 2 r^2) / sqrt(Z^2 - 4 r^2)) / 2; values to seven decimals.
TEST_CASE("traced light of a diffuse disc is what its configuration factor says", "[field][formula]") {
  struct Case {
    double radius, height, aside, factor;
  };
  const auto c = GENERATE(values<Case>({{1, 2, 1, 0.1464466}, {0.5, 2, 3, 0.0060402}, {0.1, 1, 0.5, 0.0063794}}));
  Scene scene = testing::room_over({{-9, -9}, {9, -9}, {9, 9}, {-9, 9}}, 9, {0, 0, 0});
  testing::add_point(scene, {0, 0, c.height}, testing::cosine_power(1000 * c.radius * c.radius, 1));
  scene.luminaires[0].opening = {
      .shape = Opening::Shape::disc, .width_m = 2 * c.radius, .length_m = 2 * c.radius, .height_m = 0};
  const TracedLight traced = traced_light(scene, {{{c.aside, 0, 0}, k_up}});
  CHECK(traced.total_lx[0] == traced.direct_lx[0]);
  // Four standard errors; the last digit printed; receivers are lifted by 0.05 mm.
  CHECK(traced.total_lx[0] / 1000 ==
        Approx(c.factor).margin(4 * traced.standard_error_lx[0] / 1000 + 0.5e-7).epsilon(1e-4));
  CHECK(traced.standard_error_lx[0] < 1e-4 * traced.total_lx[0]);
}

namespace {

/// A room of 4 x 3 m under a ceiling that rises from 2.2 to 3.2 m, made of nothing but its surfaces.
Scene shed(double reflectance) {
  const std::vector<Vector3d> floor{{0, 0, 0}, {4, 0, 0}, {4, 3, 0}, {0, 3, 0}};
  const std::vector<Vector3d> roof{{0, 0, 2.2}, {4, 0, 3.2}, {4, 3, 3.2}, {0, 3, 2.2}};
  Scene scene;
  const auto add = [&](const Outline& corners) {
    const Vector3d normal = (corners[1] - corners[0]).cross(corners[2] - corners[0]).normalized();
    scene.surfaces.push_back(
        {.name = "face", .corners_m = corners, .free_m = {}, .normal = normal, .reflectance = reflectance});
  };
  add(floor);
  add({roof.rbegin(), roof.rend()});
  for (int i = 0; i < 4; ++i) {
    const int next = (i + 1) % 4;
    add({floor[next], floor[i], roof[i], roof[next]});
  }
  return scene;
}

}  // namespace

// Balance of light: flux / (1 - rho) arrives in any closed room of one reflectance.
TEST_CASE("traced light of a uniform room adds up to what it must", "[field][exact]") {
  const double rho = GENERATE(0.3, 0.8);
  const Polygon l_shape{{0, 0}, {5, 0}, {5, 2.5}, {2.5, 2.5}, {2.5, 4.5}, {0, 4.5}};
  Scene scene = GENERATE_COPY(testing::box_room(4, 4, 2.5, {rho, rho, rho}),
                              testing::room_over(l_shape, 2.5, {rho, rho, rho}), shed(rho));
  constexpr double k_lumens = 10000;
  testing::add_point(scene, {1.2, 1.3, 1.25}, testing::isotropic(k_lumens));
  const FacePoints points = face_points(scene.surfaces);
  const TracedLight traced = traced_light(scene, points.receivers, {.paths = 32, .replicates = 8});
  const double absorbed_lm = (1 - rho) * sum_over(points, traced.total_lx);
  const double standard_error_lm = (1 - rho) * (points.area_m2.array() * traced.standard_error_lx).matrix().norm();
  // Four standard errors; 0.3 % for the quadrature of direct light across the shadow edges of the L.
  CHECK(absorbed_lm == Approx(k_lumens).margin(4 * standard_error_lm).epsilon(3e-3));
  CHECK(standard_error_lm < 2e-3 * k_lumens);
  CHECK(static_cast<double>(traced.escaped) <= 1e-6 * static_cast<double>(traced.rays));
}

TEST_CASE("traced light depends on the seed alone", "[field][exact]") {
  Scene scene = testing::box_room(4, 3, 2.5);
  testing::add_point(scene, {1, 1, 2.5}, testing::cosine_power(500, 2));
  const auto receivers = testing::upward_grid(4, 3, 0.8, 4, 3);
  const auto traced = [&](std::uint32_t seed) {
    return traced_light(scene, receivers, {.paths = 64, .replicates = 4, .seed = seed});
  };
  const TracedLight light = traced(1);
  CHECK((light.total_lx != traced(2).total_lx).all());
#ifdef EVENLIT_THREADS
  const tbb::global_control one(tbb::global_control::max_allowed_parallelism, 1);
#endif
  CHECK((light.total_lx == traced(1).total_lx).all());
  CHECK((light.standard_error_lx == traced(1).standard_error_lx).all());
}
