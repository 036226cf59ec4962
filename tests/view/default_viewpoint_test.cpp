#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "evenlit/view/camera.hpp"
#include "room/furnished_room.hpp"

using namespace evenlit;
using Eigen::Vector2d;
using Eigen::Vector3d;

namespace {

Camera default_camera(const Job& job) {
  const auto view = default_viewpoint(job);
  REQUIRE(view);
  return camera_of(job.room, *view, {320, 180});
}

Job l_shaped_job() {
  return empty_job({{0, 0}, {4, 0}, {4, 2}, {2, 2}, {2, 4}, {0, 4}},
                   {"south", "east", "hall", "nook", "north", "west"});
}

WallArea door_in(const std::string& wall, const std::string& neighbour, double from_m) {
  WallArea door;
  door.wall = wall;
  door.from = {neighbour, from_m};
  door.width_m = 0.9;
  door.top_m = 2.05;
  door.kind = WallArea::Kind::door;
  return door;
}

Obstruction block_over(const Vector2d& low, const Vector2d& high, double top_m) {
  Obstruction block;
  block.name = "block";
  block.from[0] = {"west", low.x()};
  block.from[1] = {"south", low.y()};
  block.width_m = high.x() - low.x();
  block.depth_m = high.y() - low.y();
  block.top_m = top_m;
  return block;
}

}  // namespace

TEST_CASE("the room is seen from before its door", "[view]") {
  Job job = empty_job({{0, 0}, {5, 0}, {5, 4}, {0, 4}}, {"south", "east", "north", "west"});
  job.wall_areas = {door_in("east", "south", 0.55)};
  const Camera camera = default_camera(job);
  CHECK((camera.eye_m - Vector3d(4.7, 1, 1.6)).norm() < 1e-9);
  CHECK(camera.forward.z() == Approx(std::sin(-5 * std::numbers::pi / 180)));
  // The middle of a raster over the room is the middle of the room.
  const Vector2d toward = Vector2d(2.5, 2) - camera.eye_m.head<2>();
  CHECK(camera.forward.head<2>().normalized().dot(toward.normalized()) == Approx(1).epsilon(1e-9));
}

TEST_CASE("a blocked door leaves the next one, and then the corners", "[view]") {
  Job job = empty_job({{0, 0}, {5, 0}, {5, 4}, {0, 4}}, {"south", "east", "north", "west"});
  job.wall_areas = {door_in("east", "south", 0.55), door_in("north", "west", 2)};
  job.obstructions = {block_over({4.5, 0.5}, {5, 1.5}, 2.2)};
  CHECK((default_camera(job).eye_m - Vector3d(2.45, 3.7, 1.6)).norm() < 1e-9);
  job.obstructions.push_back(block_over({2, 3.5}, {3, 4}, 2.2));
  const Vector3d eye = default_camera(job).eye_m;
  CHECK(std::min(eye.x(), 5 - eye.x()) == Approx(0.3));
  CHECK(std::min(eye.y(), 4 - eye.y()) == Approx(0.3));
}

TEST_CASE("without a door an L is seen from the corner that sees into both arms", "[view]") {
  const Camera camera = default_camera(l_shaped_job());
  CHECK((camera.eye_m - Vector3d(0.3, 0.3, 1.6)).norm() < 1e-9);
  CHECK(camera.forward.head<2>().normalized().dot(Vector2d(1, 1).normalized()) == Approx(1).epsilon(1e-9));
}

TEST_CASE("furniture in every corner moves the eye out of them, full cover leaves none", "[view]") {
  Job job = empty_job({{0, 0}, {3, 0}, {3, 3}, {0, 3}}, {"south", "east", "north", "west"});
  for (const Vector2d& corner : {Vector2d(0, 0), Vector2d(2.4, 0), Vector2d(2.4, 2.4), Vector2d(0, 2.4)}) {
    job.obstructions.push_back(block_over(corner, corner + Vector2d::Constant(0.6), 2));
  }
  const auto view = default_viewpoint(job);
  REQUIRE(view);
  const Vector3d eye = default_camera(job).eye_m;
  const Vector2d aside = (eye.head<2>() - Vector2d::Constant(1.5)).cwiseAbs();
  CHECK(aside.maxCoeff() < 1.5);
  CHECK(aside.minCoeff() < 0.9);  // in no block
  job.obstructions = {block_over({0, 0}, {3, 3}, 2)};
  CHECK_FALSE(default_viewpoint(job));
}

TEST_CASE("under a slope the eye stays below the ceiling", "[view]") {
  Job job = empty_job({{0, 0}, {5, 0}, {5, 4}, {0, 4}}, {"south", "east", "north", "west"});
  job.room.ceiling_m.reset();
  job.room.slopes = {{"west", 0.8, 0.3}, {"east", 0.8, 0.3}};
  const Camera camera = default_camera(job);
  CHECK(camera.eye_m.z() == Approx(0.8 + 0.3 * 0.3 - 0.15));  // 30 cm from the wall, 15 cm below the ceiling
}

TEST_CASE("a plan out of square has a view from inside too", "[view]") {
  const double turn = 0.4;
  Polygon plan;
  for (const Vector2d& corner : {Vector2d(0, 0), Vector2d(5, 0), Vector2d(5, 2), Vector2d(2, 2.5), Vector2d(0, 4)}) {
    plan.emplace_back(std::cos(turn) * corner.x() - std::sin(turn) * corner.y(),
                      std::sin(turn) * corner.x() + std::cos(turn) * corner.y());
  }
  const Job job = empty_job(plan, {"a", "b", "c", "d", "e"});
  const Camera camera = default_camera(job);
  CHECK(is_inside(plan, camera.eye_m.head<2>()));
  CHECK(distance_to_outline(plan, camera.eye_m.head<2>()) == Approx(0.3));
}
