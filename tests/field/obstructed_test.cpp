#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "evenlit/field/direct.hpp"
#include "mesh.hpp"
#include "rooms.hpp"

using namespace evenlit;
using namespace evenlit::testing;
using Eigen::Vector3d;

namespace {

Box box(double x, double y, double width, double depth, double bottom, double top, double reflectance = 0.5) {
  return {.name = "box",
          .centre_m = {x, y},
          .half_m = {width / 2, depth / 2},
          .bottom_m = bottom,
          .top_m = top,
          .reflectance = reflectance};
}

Scene furnished(double reflectance) {
  Scene scene = box_room(5, 4, 2.5, {reflectance, reflectance, reflectance});
  Box turned = box(3.4, 2.6, 1.2, 0.7, 0, 0.75, reflectance);
  turned.along = Eigen::Vector2d(2, 1).normalized();
  place_boxes(scene, {box(0.3, 2, 0.6, 3, 0, 0.9, reflectance), box(0.2, 2, 0.4, 3, 1.4, 2.1, reflectance), turned,
                      box(4.75, 0.25, 0.5, 0.5, 0, 2.5, reflectance)});
  return scene;
}

double area_of(const Mesh& mesh) {
  double area = 0;
  for (const Patch& patch : mesh.patches) area += patch.area_m2;
  return area;
}

}  // namespace

TEST_CASE("boxes: the mesh covers all free faces and nothing else", "[field][exact]") {
  Scene scene = box_room(5, 4, 2.5);
  const double empty_m2 = 2 * 20 + 18 * 2.5;
  place_boxes(scene, {box(2, 2, 1, 0.5, 0, 0.8)});
  // The sides; the top replaces the floor below.
  CHECK(area_of(make_mesh(scene, 0.35)) == Approx(empty_m2 + 3 * 0.8).epsilon(1e-6));
}

TEST_CASE("boxes: a corner filled from floor to ceiling makes the room an L", "[field][property]") {
  Scene filled = box_room(6, 5, 2.6);
  place_boxes(filled, {box(4.5, 3.75, 3, 2.5, 0, 2.6)});
  Scene l_shape = room_over({{0, 0}, {6, 0}, {6, 2.5}, {3, 2.5}, {3, 5}, {0, 5}}, 2.6);
  for (Scene* scene : {&filled, &l_shape}) {
    add_point(*scene, {1.5, 3.7, 2.6}, cosine_power(500, 2));
    add_point(*scene, {4.5, 1.2, 2.6}, cosine_power(400, 4));
  }
  const auto receivers = upward_grid(3, 5, 0.762, 4, 6);
  const Eigen::VectorXd a = total_lx(response(filled, receivers));
  const Eigen::VectorXd b = total_lx(response(l_shape, receivers));
  // Two meshes, each within its half percent.
  CHECK(((a - b).array() / b.array()).abs().maxCoeff() < 0.01);
  CHECK((a - b).norm() / b.norm() < 0.003);
}

// Balance of light: in a closed room of one reflectance the mean over all surfaces is flux / (S (1 - rho)).
TEST_CASE("boxes: what is sent out is absorbed", "[field][exact]") {
  Scene scene = furnished(0.6);
  add_point(scene, {2.2, 1.5, 1.5}, isotropic(1000));
  const Mesh mesh = make_mesh(scene, 0.25);
  std::vector<Receiver> on_patches;
  for (const auto& surface : mesh.surfaces) {
    for (int i = surface.begin; i < surface.end; ++i) {
      on_patches.push_back({mesh.patches[i].centre_m + 1e-4 * surface.normal, surface.normal});
    }
  }
  const Eigen::VectorXd lux = total_lx(response(scene, on_patches));
  double arriving_lm = 0;
  for (int i = 0; i < mesh.size(); ++i) arriving_lm += mesh.patches[i].area_m2 * lux[i];
  // Light sampled at the centres of patches of 0.25 m, shadow edges among them.
  CHECK(arriving_lm == Approx(1000 / (1 - 0.6)).epsilon(0.02));
}

// A uniformly lit enclosure looks the same from everywhere: what all faces together send a point is their exitance.
TEST_CASE("boxes: every point sees a closed room", "[field][exact]") {
  Scene scene = furnished(0.5);
  add_point(scene, {2.2, 1.5, 1.7}, isotropic(3000));
  const std::vector<Receiver> points{{{2.5, 1, 0.8}, Vector3d::UnitZ()},
                                     {{2.0, 3.2, 1.2}, -Vector3d::UnitX()},
                                     {{0.5, 2, 1.2}, Vector3d::UnitX()},
                                     {{4.2, 0.6, 0.4}, Vector3d(-1, 1, 1).normalized()}};
  const Response normal = response(scene, points);
  // Light in a room of twice the lamps is twice as much, behind boxes too.
  add_point(scene, {2.2, 1.5, 1.7}, isotropic(3000));
  const Response doubled = response(scene, points);
  for (int i = 0; i < 4; ++i) {
    CHECK(total_lx(doubled)[i] == Approx(2 * total_lx(normal)[i]).epsilon(1e-5));
    CHECK(total_lx(normal)[i] > 0);
  }
}

TEST_CASE("boxes: straight light stops at them", "[field][exact]") {
  Scene scene = box_room(6, 4, 2.5, {0, 0, 0});
  place_boxes(scene, {box(3, 2, 0.1, 4, 0, 1.5, 0)});
  add_point(scene, {2, 2, 2.5}, isotropic(1000));
  // From (2, 2.5 m up) over the screen's far top edge at x = 3.05: the shadow on the floor ends at 2 + 1.05 x 2.5.
  const double edge_m = 2 + 1.05 * 2.5;
  const std::vector<Receiver> floor{{{edge_m - 0.02, 2, 0}, Vector3d::UnitZ()},
                                    {{edge_m + 0.02, 2, 0}, Vector3d::UnitZ()},
                                    {{3.2, 2, 0}, Vector3d::UnitZ()},
                                    {{2.5, 2, 0}, Vector3d::UnitZ()}};
  const Response lit = response(scene, floor);
  CHECK(lit.direct_lx(0, 0) == 0);
  CHECK(lit.direct_lx(2, 0) == 0);
  CHECK(lit.direct_lx(1, 0) ==
        Approx(1000 / (4 * std::numbers::pi) * 2.5 / std::pow(std::hypot(edge_m + 0.02 - 2, 2.5), 3)).epsilon(1e-6));
  CHECK(lit.direct_lx(3, 0) > 0);
  CHECK(lit.indirect_lx.norm() == 0);  // all is black
}
