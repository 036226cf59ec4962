#include "evenlit/room/box.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace evenlit;
using Eigen::Vector2d;
using Eigen::Vector3d;

namespace {

/// 2 x 1 x 0.8 m about (3, 2), turned by 30 degrees, its foot 0.4 m up.
Box turned_box() {
  return {.name = "box",
          .centre_m = {3, 2},
          .half_m = {1, 0.5},
          .along = {std::sqrt(0.75), 0.5},
          .bottom_m = 0.4,
          .top_m = 1.2,
          .reflectance = 0.5};
}

}  // namespace

TEST_CASE("a box's faces close it and look outward", "[room][exact]") {
  const Box box = turned_box();
  const Vector3d centre(3, 2, 0.8);
  double area = 0;
  Vector3d closed = Vector3d::Zero();
  for (const BoxFace& face : faces_of(box)) {
    const auto& c = face.corners_m;
    const Vector3d across = (c[2] - c[0]).cross(c[3] - c[1]) / 2;
    area += across.norm();
    closed += across;
    CHECK(across.normalized().dot(face.normal) == Approx(1).epsilon(1e-12));  // counter-clockwise seen from outside
    CHECK(face.normal.dot(c[0] - centre) > 0);
    for (const Vector3d& corner : c) {
      CHECK((in_box_frame(box, corner).cwiseAbs() - half_extent(box)).norm() < 1e-12);
    }
  }
  CHECK(area == Approx(2 * (2 * 1 + 2 * 0.8 + 1 * 0.8)).epsilon(1e-12));
  CHECK(closed.norm() < 1e-12);
}

TEST_CASE("a segment crosses a box when a point of it is inside", "[room][property]") {
  const Box box = turned_box();
  std::mt19937 random(3);
  std::uniform_real_distribution<double> x(1, 5), y(0, 4), z(0, 2);
  int crossings = 0;
  for (int i = 0; i < 2000; ++i) {
    const Vector3d a(x(random), y(random), z(random));
    const Vector3d b(x(random), y(random), z(random));
    bool inside = false;
    constexpr int k_steps = 4000;
    for (int step = 0; step <= k_steps && !inside; ++step) {
      inside = is_inside(box, a + (b - a) * step / k_steps);
    }
    // Steps of about a millimetre find every crossing that is not shorter; those go either way.
    if (inside) CHECK(is_crossed(box, a, b, 0));
    if (!inside) CHECK_FALSE(is_crossed(box, a, b, 0.002));
    CHECK(is_crossed(box, a, b, 0) == is_crossed(box, b, a, 0));
    crossings += inside;
  }
  CHECK(crossings > 100);
}

TEST_CASE("touching a box is not crossing it", "[room][exact]") {
  const Box box{.name = "b", .centre_m = {0, 0}, .half_m = {1, 1}, .bottom_m = 0, .top_m = 1, .reflectance = 0};
  CHECK_FALSE(is_crossed(box, {-3, 1, 0.5}, {3, 1, 0.5}, 0));   // along a side
  CHECK_FALSE(is_crossed(box, {0, 0, 1}, {0, 3, 2}, 0));        // from the top outward
  CHECK_FALSE(is_crossed(box, {1, 0, 0.5}, {3, 0, 0.5}, 0));    // from a side outward
  CHECK(is_crossed(box, {-1, 0, 0.5}, {3, 0, 0.5}, 0));         // from a side through it
  CHECK(is_crossed(box, {-3, 1.1, 0.5}, {3, 1.1, 0.5}, -0.2));  // nearer than 0.2 m
  CHECK_FALSE(is_crossed(box, {-3, 1.3, 0.5}, {3, 1.3, 0.5}, -0.2));
}
