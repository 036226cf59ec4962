#include "free_area.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>
#include <cmath>

using namespace evenlit;
using Eigen::Vector3d;

namespace {

const Outline k_floor{{0, 0, 0}, {5, 0, 0}, {5, 4, 0}, {0, 4, 0}};
const Outline k_south_wall{{5, 0, 0}, {0, 0, 0}, {0, 0, 2.5}, {5, 0, 2.5}};
const Polygon k_plan{{0, 0}, {5, 0}, {5, 4}, {0, 4}};
const Ceiling k_ceiling{.planes = {{.height_m = 2.5}}, .lowest_m = 2.5, .highest_m = 2.5};

Box box(double x, double y, double width, double depth, double bottom, double top) {
  return {.name = "box",
          .centre_m = {x, y},
          .half_m = {width / 2, depth / 2},
          .bottom_m = bottom,
          .top_m = top,
          .reflectance = 0.5};
}

/// Seen from where the normal points, holes counted off.
double area(const std::vector<Outline>& outlines, const Vector3d& normal) {
  double sum = 0;
  for (const Outline& outline : outlines) {
    for (std::size_t i = 0; i < outline.size(); ++i) {
      sum += outline[i].cross(outline[(i + 1) % outline.size()]).dot(normal) / 2;
    }
  }
  return sum;
}

double free_floor(const std::vector<Box>& boxes) {
  return area(free_area({k_floor}, Vector3d::UnitZ(), boxes), Vector3d::UnitZ());
}

/// Of all faces of all boxes.
double free_faces(const std::vector<Box>& boxes, const Ceiling& ceiling = k_ceiling) {
  double sum = 0;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    for (const BoxFace& face : faces_of(boxes[i])) {
      sum += area(free_area(face, boxes, std::span(boxes).first(i), k_plan, ceiling), face.normal);
    }
  }
  return sum;
}

}  // namespace

TEST_CASE("a face that nothing stands on is free as it is", "[room][exact]") {
  CHECK(free_area({k_floor}, Vector3d::UnitZ(), {}) == std::vector<Outline>{k_floor});
  CHECK(free_area({k_floor}, Vector3d::UnitZ(), std::vector{box(2, 2, 1, 1, 0.5, 1)}) == std::vector<Outline>{k_floor});
}

TEST_CASE("what stands on a face is taken off it", "[room][exact]") {
  CHECK(free_floor({box(2, 2, 1, 0.5, 0, 1)}) == Approx(20 - 0.5).epsilon(1e-9));  // a hole
  CHECK(free_floor({box(0.5, 0.5, 1, 1, 0, 1)}) == Approx(20 - 1).epsilon(1e-9));  // in a corner
  CHECK(free_floor({box(0, 2, 1, 1, 0, 1)}) == Approx(20 - 0.5).epsilon(1e-9));    // half outside
  CHECK(free_floor({box(2, 2, 1, 6, 0, 1)}) == Approx(20 - 4).epsilon(1e-9));      // from wall to wall: two parts
  CHECK(free_floor({box(2, 2, 1, 1, 0, 1), box(2.5, 2, 1, 1, 0, 1)}) == Approx(20 - 1.5).epsilon(1e-9));  // overlapping
  CHECK(free_floor({box(2.5, 2, 9, 9, 0, 1)}) == 0);
  Box turned = box(2, 2, 1, 1, 0, 1);
  turned.along = Eigen::Vector2d(1, 1).normalized();
  // Corners that are no binary fractions are rounded to 8 m / 2^29, over a perimeter of 4 m.
  CHECK(free_floor({turned}) == Approx(19).margin(6e-8));
  const auto wall = free_area({k_south_wall}, Vector3d::UnitY(), std::vector{box(2, 0.3, 1.5, 0.6, 0, 0.9)});
  CHECK(area(wall, Vector3d::UnitY()) == Approx(5 * 2.5 - 1.5 * 0.9).epsilon(1e-6));
}

TEST_CASE("a box's faces count where they stand free inside the room", "[room][exact]") {
  const Box free = box(2, 2, 1, 0.5, 0.5, 1.5);
  CHECK(free_faces({free}) == Approx(2 * (0.5 + 1 + 0.5)).epsilon(1e-6));
  const Box on_floor = box(2, 2, 1, 0.5, 0, 1);
  CHECK(free_faces({on_floor}) == Approx(0.5 + 2 * (1 + 0.5)).epsilon(1e-6));
  const Box in_corner = box(0.5, 0.25, 1, 0.5, 0, 1);
  CHECK(free_faces({in_corner}) == Approx(0.5 + 1 + 0.5).epsilon(1e-6));
  const Box column = box(2, 2, 1, 0.5, 0, 2.5);
  CHECK(free_faces({column}) == Approx(2.5 * 3).epsilon(1e-6));
  const Box through_ceiling = box(2, 2, 1, 0.5, 0, 4);
  CHECK(free_faces({through_ceiling}) == Approx(2.5 * 3).epsilon(1e-6));
  const Box through_wall = box(0, 2, 1, 0.5, 0, 1);
  CHECK(free_faces({through_wall}) == Approx(0.25 + 2 * 0.5 + 0.5).epsilon(1e-6));
  const Box outside = box(9, 9, 1, 1, 0, 1);
  CHECK(free_faces({outside}) == 0);
}

TEST_CASE("where boxes touch there is no face", "[room][exact]") {
  const std::vector<Box> beside{box(1, 2, 1, 1, 0, 1), box(2, 2, 1, 1, 0, 1)};
  CHECK(free_faces(beside) == Approx(2 * 1 + 6 * 1).epsilon(1e-4));
  const std::vector<Box> stacked{box(1, 2, 1, 1, 0, 1), box(1, 2, 1, 1, 1, 2)};
  CHECK(free_faces(stacked) == Approx(1 + 8 * 1).epsilon(1e-4));
}

TEST_CASE("where faces of two boxes lie in one plane there is one", "[room][exact]") {
  CHECK(free_faces({box(1, 2, 1, 1, 0, 1), box(1.5, 2, 1, 1, 0, 1)}) == Approx(1.5 + 2 * 1.5 + 2 * 1).epsilon(1e-4));
  CHECK(free_faces({box(1, 2, 1, 1, 0, 1), box(1, 2, 1, 1, 0, 1)}) == Approx(1 + 4 * 1).epsilon(1e-4));
}

TEST_CASE("a box under a slope counts as far as it is below", "[room][exact]") {
  // From 0.5 m over the west wall (x = 0) up by 45 degrees.
  const Ceiling shed{.planes = {{.height_m = 0.5, .rise = {1, 0}, .wall = 3}}, .lowest_m = 0.5, .highest_m = 5.5};
  // x 0.5...1.5, y 1.5...2.5, 1.5 m high: the slope leaves it at x = 1. In front of the box 1 m2 each side less a
  // triangle of 0.5 x 0.5 m, on top 0.5 m2, its east side whole, its west side 1 m high.
  CHECK(free_faces({box(1, 2, 1, 1, 0, 1.5)}, shed) == Approx(2 * (1.5 - 0.125) + 0.5 + 1.5 + 1).epsilon(1e-4));
  const Outline slope{{0, 4, 0.5}, {5, 4, 5.5}, {5, 0, 5.5}, {0, 0, 0.5}};
  const Vector3d normal = shed.planes[0].normal();
  CHECK(area(free_area({slope}, normal, std::vector{box(1, 2, 1, 1, 0, 1.5)}), normal) ==
        Approx(std::sqrt(2) * (20 - 0.5)).epsilon(1e-5));
}
