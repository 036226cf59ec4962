#include "evenlit/field/response.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "mesh.hpp"
#include "rooms.hpp"

using namespace evenlit;
using namespace evenlit::testing;
using Eigen::Vector3d;

namespace {

const Polygon k_l_shape{{0, 0}, {5.4, 0}, {5.4, 2.8}, {3.0, 2.8}, {3.0, 4.8}, {0, 4.8}};
const Polygon k_u_shape{{0, 0}, {6, 0}, {6, 4}, {4, 4}, {4, 2}, {2, 2}, {2, 4}, {0, 4}};
const Polygon k_bay{{0, 0}, {4, 0}, {4.8, 0.8}, {4.8, 2.2}, {4, 3}, {0, 3}};

/// Points on the inside of all of a scene's surfaces, with the area each stands for.
struct SurfacePoints {
  std::vector<Receiver> receivers;
  std::vector<int> surface;
  Eigen::VectorXd area_m2;
};

/// A Gauss rule of `order` x `order` points on every patch of a mesh.
SurfacePoints surface_points(const Scene& scene, double patch_m, int order) {
  const Mesh mesh = make_mesh(scene, patch_m);
  const Nodes nodes = gauss_nodes(mesh.patches, order);
  SurfacePoints points;
  points.area_m2.resize(static_cast<Eigen::Index>(nodes.area_m2.size()));
  for (int surface = 0; surface < static_cast<int>(mesh.surfaces.size()); ++surface) {
    const auto& range = mesh.surfaces[surface];
    for (int node = range.begin * nodes.per_patch; node < range.end * nodes.per_patch; ++node) {
      points.receivers.push_back({{nodes.x_m[node], nodes.y_m[node], nodes.z_m[node]}, range.normal});
      points.surface.push_back(surface);
      points.area_m2[node] = nodes.area_m2[node];
    }
  }
  return points;
}

/// Mean over one surface, or over all when it is -1.
double mean_of(const SurfacePoints& points, const Eigen::VectorXd& values, int surface = -1) {
  double sum = 0;
  double area = 0;
  for (Eigen::Index i = 0; i < values.size(); ++i) {
    if (surface >= 0 && points.surface[i] != surface) continue;
    sum += values[i] * points.area_m2[i];
    area += points.area_m2[i];
  }
  return sum / area;
}

Scene four_cans(double peak_cd, double power) {
  // 14 x 12 x 8 ft, cans at the quarter points.
  Scene scene = box_room(4.2672, 3.6576, 2.4384);
  for (const double x : {1.0668, 3.2004}) {
    for (const double y : {0.9144, 2.7432}) add_point(scene, {x, y, 2.4384}, cosine_power(peak_cd, power));
  }
  return scene;
}

}  // namespace

// The balance of light in any closed room, whatever its shape and wherever the source.
TEST_CASE("in a room of one reflectance the mean over all surfaces is flux / (S (1 - rho))", "[field][exact]") {
  const auto plan = GENERATE(Polygon{{0, 0}, {4, 0}, {4, 4}, {0, 4}}, k_l_shape, k_u_shape, k_bay);
  const double rho = GENERATE(0.1, 0.5, 0.8, 0.95);
  Scene scene = room_over(plan, 2.4, {rho, rho, rho});
  add_point(scene, {1, 1, 1.2}, isotropic(10000));
  const SurfacePoints points = surface_points(scene, 0.7, 3);
  const Eigen::VectorXd indirect_lx = response(scene, points.receivers).indirect_lx.col(0);
  const double surface_m2 = points.area_m2.sum();
  // The engine's promise at a point is 0.5 %; a mean is better.
  CHECK(mean_of(points, indirect_lx) == Approx(10000 / surface_m2 * rho / (1 - rho)).epsilon(2e-3));
}

// Geometry of the cube: published errata to CIE 171:2006 (4 x 4 x 4 m, uniform diffusers). Point values computed from
// two discretisations that bracket them; the margin printed beside each is that bracket.
TEST_CASE("indirect light at points of the uniform cube", "[field][reference]") {
  struct Case {
    double u, v, at_50, margin_50, at_80, margin_80;
  };
  const auto c = GENERATE(values<Case>({{2, 2, 112.04, 0.02, 430.95, 0.1},
                                        {1, 2, 110.88, 0.02, 429.0, 0.1},
                                        {1, 1, 107.78, 0.02, 423.5, 0.1},
                                        {0.5, 2, 108.37, 0.02, 424.9, 0.1},
                                        {0.5, 0.5, 96.85, 0.03, 403.1, 0.15},
                                        {0.25, 0.25, 86.4, 0.1, 381.6, 0.3}}));
  const auto check = [&](double rho, double expected_lx, double margin_lx) {
    Scene scene = box_room(4, 4, 4, {rho, rho, rho});
    add_point(scene, {2, 2, 2}, isotropic(10000));
    const Response r = response(scene, {{{c.u, c.v, 0}, Vector3d::UnitZ()}}, k_fine);
    const double promise_lx = 1e-3 * expected_lx;  // what is promised of each value
    CHECK(r.indirect_lx(0, 0) == Approx(expected_lx).margin(margin_lx + promise_lx).epsilon(0));
  };
  CAPTURE(c.u, c.v);
  check(0.5, c.at_50, c.margin_50);
  check(0.8, c.at_80, c.margin_80);
}

// Means over each surface of the 14 x 12 x 8 ft room, from a fine mesh of an independent program; margins as printed.
TEST_CASE("mean light on floor, ceiling and walls of a 14 x 12 x 8 ft room", "[field][reference]") {
  struct Case {
    double peak_cd, power, floor_lx, ceiling_lx, x_wall_lx, y_wall_lx;
  };
  const auto c = GENERATE(values<Case>({{300, 1, 133.09, 43.747, 100.41, 103.415},  //
                                        {600, 3, 170.86, 36.208, 76.91, 80.49}}));
  const Scene scene = four_cans(c.peak_cd, c.power);
  const SurfacePoints points = surface_points(scene, 0.35, 3);
  const Eigen::VectorXd lux = total_lx(response(scene, points.receivers));
  // Margins: as printed, and 0.1 % for the quadrature over hot spots on walls.
  CHECK(mean_of(points, lux, 0) == Approx(c.floor_lx).margin(0.03).epsilon(1e-3));
  CHECK(mean_of(points, lux, 1) == Approx(c.ceiling_lx).margin(0.01).epsilon(1e-3));
  CHECK(mean_of(points, lux, 2) == Approx(c.y_wall_lx).margin(0.03).epsilon(1e-3));  // south
  CHECK(mean_of(points, lux, 3) == Approx(c.x_wall_lx).margin(0.03).epsilon(1e-3));  // east
}

TEST_CASE("what the surfaces absorb is what the luminaires send out", "[field][exact]") {
  const Scene scene = four_cans(600, 3);
  const SurfacePoints points = surface_points(scene, 0.35, 3);
  const Eigen::VectorXd lux = total_lx(response(scene, points.receivers));
  double absorbed_lm = 0;
  for (Eigen::Index i = 0; i < lux.size(); ++i) {
    absorbed_lm += lux[i] * points.area_m2[i] * (1 - scene.surfaces[points.surface[i]].reflectance);
  }
  CHECK(absorbed_lm == Approx(3769.911184).epsilon(1e-3));  // quadrature over hot spots on walls
}

TEST_CASE("light adds up and follows the levels", "[field][property]") {
  const Scene scene = four_cans(600, 3);
  const auto receivers = upward_grid(4.2672, 3.6576, 0.762, 7, 6);
  const Response r = response(scene, receivers);
  const Eigen::Vector4d levels(1, 0.5, 0.25, 0);
  const Field f = field_at(r, levels);

  Eigen::VectorXd sum = Eigen::VectorXd::Zero(f.total_lx.size());
  for (int k = 0; k < 4; ++k) {
    Scene alone = scene;
    alone.luminaires = {scene.luminaires[k]};
    sum += levels[k] * total_lx(response(alone, receivers));
  }
  // Each column comes from its own run of the solver, whose residual is 1e-6.
  CHECK((f.total_lx - sum).cwiseAbs().maxCoeff() < 3e-6 * sum.maxCoeff());

  // The same by columns, but for the order in which they are added up.
  const Field some = field_at(columns_of(r, {2, 0}), Eigen::Vector2d(0.25, 1));
  const Field others = field_at(columns_of(r, {3, 1}), Eigen::Vector2d(0, 0.5));
  CHECK((f.total_lx - some.total_lx - others.total_lx).cwiseAbs().maxCoeff() < 1e-12 * sum.maxCoeff());
  CHECK((f.direct_lx - some.direct_lx - others.direct_lx).cwiseAbs().maxCoeff() < 1e-12 * sum.maxCoeff());
}

TEST_CASE("a symmetric room and layout give a symmetric field", "[field][property]") {
  const Scene scene = four_cans(600, 3);
  const Eigen::VectorXd lux = total_lx(response(scene, upward_grid(4.2672, 3.6576, 0.762, 8, 6)));
  const Eigen::Map<const Eigen::MatrixXd> grid(lux.data(), 8, 6);
  // Single-precision factors summed in another order: a few 1e-6.
  CHECK((grid - grid.colwise().reverse()).cwiseAbs().maxCoeff() < 1e-5 * lux.maxCoeff());
  CHECK((grid - grid.rowwise().reverse()).cwiseAbs().maxCoeff() < 1e-5 * lux.maxCoeff());
}

TEST_CASE("turning the room turns the field", "[field][property]") {
  const double turn = GENERATE(0.3, 1.1, 2.5);
  const Eigen::Rotation2Dd turned(turn);
  Scene straight = room_over(k_l_shape, 2.4);
  Polygon plan;
  for (const auto& corner : k_l_shape) plan.push_back(turned * corner);
  Scene crooked = room_over(plan, 2.4);
  std::vector<Receiver> straight_points;
  std::vector<Receiver> crooked_points;
  for (const Eigen::Vector2d& p : {Eigen::Vector2d(0.6, 0.5), {4.7, 1.4}, {2.2, 2.4}, {1.3, 4.1}, {2.9, 4.6}}) {
    const Eigen::Vector2d q = turned * p;
    straight_points.push_back({{p.x(), p.y(), 0.762}, Vector3d::UnitZ()});
    crooked_points.push_back({{q.x(), q.y(), 0.762}, Vector3d::UnitZ()});
  }
  for (const Eigen::Vector2d& p : {Eigen::Vector2d(1.2, 1.4), {4.1, 1.4}}) {
    const Eigen::Vector2d q = turned * p;
    add_point(straight, {p.x(), p.y(), 2.4}, cosine_power(500, 3));
    add_point(crooked, {q.x(), q.y(), 2.4}, cosine_power(500, 3));
  }
  const Eigen::VectorXd a = total_lx(response(straight, straight_points));
  const Eigen::VectorXd b = total_lx(response(crooked, crooked_points));
  // The mesh turns with the room; points rounded to single precision are left.
  CHECK((a - b).cwiseAbs().maxCoeff() < 2e-5 * a.maxCoeff());
}

TEST_CASE("refining the mesh converges, and the stated error covers what is left", "[field][property]") {
  Scene scene = room_over(k_l_shape, 2.4);
  add_point(scene, {1.5, 1.4, 2.4}, cosine_power(800, 3));
  add_point(scene, {4.2, 1.4, 2.4}, cosine_power(800, 3));
  add_point(scene, {1.5, 3.8, 2.4}, cosine_power(800, 3));
  std::vector<Receiver> receivers;
  for (const auto& r : upward_grid(5.4, 4.8, 0.762, 9, 8)) {
    if (is_inside(k_l_shape, r.position_m.head<2>())) receivers.push_back(r);
  }
  const Eigen::VectorXd finest = total_lx(response(scene, receivers, MeshDetail{.patch_size_m = 0.13}));
  const auto error_at = [&](double patch_m) {
    return ((total_lx(response(scene, receivers, MeshDetail{.patch_size_m = patch_m})) - finest).cwiseAbs().array() /
            finest.array())
        .maxCoeff();
  };
  CHECK(error_at(0.3) < error_at(0.9));
  CHECK(error_at(0.35) < 5e-3);

  const Response usual = response(scene, receivers);
  const Field f = field_at(usual, Eigen::VectorXd::Ones(3));
  const auto covered = (f.error_lx.array() >= (f.total_lx - finest).cwiseAbs().array()).count();
  CHECK(covered >= 0.95 * static_cast<double>(receivers.size()));
  CHECK((f.error_lx.array() / f.total_lx.array()).mean() < 0.01);
}

TEST_CASE("a black room has no indirect light and a room without luminaires no light", "[field][exact]") {
  Scene black = box_room(4, 3, 2.5, {0, 0, 0});
  add_point(black, {2, 1.5, 2.5}, cosine_power(500, 2));
  const auto receivers = upward_grid(4, 3, 0.8, 3, 3);
  const Response r = response(black, receivers);
  CHECK(r.indirect_lx.isZero(0));
  CHECK(r.direct_lx.minCoeff() > 0);

  const Field none = field_at(response(box_room(4, 3, 2.5), receivers), Eigen::VectorXd(0));
  CHECK(none.total_lx.isZero(0));
  CHECK(none.error_lx.isZero(0));
}

TEST_CASE("rooms of a hand's width and of a hall's length are computed too", "[field][property]") {
  const double size = GENERATE(0.01, 0.3, 60.0, 1000.0);
  Scene scene = box_room(size, size, size, {0.5, 0.5, 0.5});
  add_point(scene, {size / 2, size / 2, size}, cosine_power(1000 / std::numbers::pi, 1));
  const double floor_lx = total_lx(response(scene, {{{size / 2, size / 2, 0}, Vector3d::UnitZ()}}))[0];
  Scene unit = box_room(1, 1, 1, {0.5, 0.5, 0.5});
  add_point(unit, {0.5, 0.5, 1}, cosine_power(1000 / std::numbers::pi, 1));
  const double unit_lx = total_lx(response(unit, {{{0.5, 0.5, 0}, Vector3d::UnitZ()}}))[0];
  CHECK(floor_lx * size * size == Approx(unit_lx).epsilon(2e-3));  // similarity, up to the mesh error of both
}

TEST_CASE("progress runs from near nothing to all, never back", "[field][property]") {
  Scene scene = box_room(4, 3, 2.5);
  add_point(scene, {2, 1.5, 2.5}, cosine_power(500, 2));
  std::vector<double> reports;
  response(scene, upward_grid(4, 3, 0.8, 60, 50), Accuracy{}, [&](double done) { reports.push_back(done); });
  REQUIRE(reports.size() > 5);
  CHECK(std::ranges::is_sorted(reports));
  CHECK(reports.front() > 0);
  CHECK(reports.back() == Approx(1));
}
