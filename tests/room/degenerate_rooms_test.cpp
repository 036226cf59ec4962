// Rooms and boxes at the limits of what a job file allows.

#include <Eigen/Geometry>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "evenlit/room/scene.hpp"

using namespace evenlit;
using Eigen::Vector2d;
using Eigen::Vector3d;

namespace {

Job room_over(const Polygon& plan_m, double ceiling_m) {
  Job job;
  job.room.corners_m = plan_m;
  job.room.ceiling_m = ceiling_m;
  for (std::size_t i = 0; i < plan_m.size(); ++i) job.room.wall_names.push_back(std::to_string(i));
  return job;
}

Job square_room(double side_m) { return room_over({{0, 0}, {side_m, 0}, {side_m, side_m}, {0, side_m}}, side_m); }

Box box(double x, double y, double width, double depth, double bottom, double top) {
  return {.name = "box", .centre_m = {x, y}, .half_m = {width / 2, depth / 2}, .bottom_m = bottom, .top_m = top};
}

/// Sum of free area x normal, and what the free faces enclose.
std::pair<double, double> gap_and_volume(const Scene& scene) {
  Vector3d sum = Vector3d::Zero();
  double volume = 0;
  for (const Surface& surface : scene.surfaces) {
    for (const Outline& c : surface.free_m) {
      for (std::size_t i = 1; i + 1 < c.size(); ++i) {
        const double area = (c[i] - c[0]).cross(c[i + 1] - c[0]).dot(surface.normal) / 2;
        sum += area * surface.normal;
        volume -= area * surface.normal.dot((c[0] + c[i] + c[i + 1]) / 3) / 3;
      }
    }
  }
  return {sum.norm(), volume};
}

}  // namespace

TEST_CASE("rooms of 1 cm and of 1 km are closed round a box of half their size", "[room][exact]") {
  const double side = GENERATE(0.01, 1.0, 1000.0);
  CAPTURE(side);
  Scene scene = build_scene(square_room(side), {});
  place_boxes(scene, {box(side / 2, side / 2, side / 2, side / 2, 0, side / 2)});
  const auto [gap_m2, volume_m3] = gap_and_volume(scene);
  // What touches is told from what does not by 1e-5 m, along the 8 edges of the box's sides.
  CHECK(gap_m2 < 8 * side * 1e-5 + 1e-9);
  CHECK(volume_m3 == Approx(std::pow(side, 3) * 7 / 8).margin(8 * side * side * 1e-5 + 1e-9));
}

TEST_CASE("a box that fills the room leaves no face", "[room][exact]") {
  Scene scene = build_scene(square_room(3), {});
  place_boxes(scene, {box(1.5, 1.5, 3, 3, 0, 3)});
  for (const Surface& surface : scene.surfaces) CHECK(surface.free_m.empty());
}

TEST_CASE("a box that runs through a wall, and one that is outside", "[room][exact]") {
  Scene scene = build_scene(square_room(3), {});
  place_boxes(scene, {box(3, 1.5, 2, 1, 0, 1), box(3.5, 0.5, 1, 1, 0, 1), box(1, 5, 1, 1, 0, 1)});
  const auto [gap_m2, volume_m3] = gap_and_volume(scene);
  CHECK(gap_m2 < 1e-4);  // 1e-5 m along some metres of edges
  CHECK(volume_m3 == Approx(27 - 1).margin(1e-4));
}

TEST_CASE("the same box many times is one", "[room][exact]") {
  Scene scene = build_scene(square_room(3), {});
  place_boxes(scene, std::vector<Box>(20, box(1.5, 1.5, 1, 1, 0, 1)));
  const auto [gap_m2, volume_m3] = gap_and_volume(scene);
  CHECK(gap_m2 < 1e-4);
  CHECK(volume_m3 == Approx(27 - 1).margin(1e-4));
}

TEST_CASE("slabs of 1 mm, and a sliver of a room", "[room][exact]") {
  Scene scene = build_scene(square_room(3), {});
  place_boxes(scene, {box(1.5, 1.5, 0.001, 2, 0, 2), box(1.5, 1.5, 2, 2, 2, 2.001)});
  const auto [gap_m2, volume_m3] = gap_and_volume(scene);
  CHECK(gap_m2 < 2e-4);  // 1e-5 m along 16 m of edges
  CHECK(volume_m3 == Approx(27 - 0.004 - 0.004).margin(4e-4));

  const Job sliver = room_over({{0, 0}, {5, 0}, {2.5, 0.002}}, 2.4);
  const auto [sliver_gap_m2, sliver_m3] = gap_and_volume(build_scene(sliver, {}));
  CHECK(sliver_gap_m2 < 1e-12);  // rounding
  CHECK(sliver_m3 == Approx(0.005 * 2.4).epsilon(1e-9));
}

TEST_CASE("five hundred boxes that overlap each other, walls and slopes leave a closed room", "[room][property]") {
  std::mt19937_64 random(20240603);
  const auto between = [&](double least, double most) { return std::uniform_real_distribution(least, most)(random); };
  Job job = square_room(8);
  job.room.slopes = {{"0", 2, 0.5}, {"3", 3, 1}};
  std::vector<Box> boxes;
  for (int i = 0; i < 500; ++i) {
    const double turn = between(0, std::numbers::pi);
    Box any = box(between(0, 8), between(0, 8), between(0.05, 1), between(0.05, 1), 0, 0);
    any.along = {std::cos(turn), std::sin(turn)};
    any.bottom_m = i % 2 == 0 ? 0 : between(0, 2);
    any.top_m = any.bottom_m + between(0.1, 2);
    boxes.push_back(any);
  }
  Scene scene = build_scene(job, {});
  place_boxes(scene, boxes);
  CHECK(gap_and_volume(scene).first < 500 * 1e-4);  // 1e-5 m along some 10 m of edges each, of either sign
}

TEST_CASE("a room of five hundred corners with a hip of twenty slopes is closed", "[room][property]") {
  Polygon plan;
  for (int i = 0; i < 500; ++i) {
    const double angle = 2 * std::numbers::pi * i / 500;
    const double radius = i % 2 == 0 ? 5 : 4.9;
    plan.emplace_back(radius * std::cos(angle), radius * std::sin(angle));
  }
  Job job = room_over(plan, 4);
  for (int i = 0; i < 20; ++i) job.room.slopes.push_back({std::to_string(25 * i), 2.5, 0.4});
  const Scene scene = build_scene(job, {});
  CHECK(gap_and_volume(scene).first < 1e-4);  // corners to 2e-8 m, along 20 ridges and 500 walls
}
