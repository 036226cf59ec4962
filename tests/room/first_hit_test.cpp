#include "evenlit/room/first_hit.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>
#include <random>

#include "room/furnished_room.hpp"

using namespace evenlit;
using Eigen::Vector3d;

namespace {

std::string seen(const Scene& scene, const Vector3d& eye, const Vector3d& direction) {
  const auto hit = first_hit(scene, eye, direction.normalized());
  return hit ? scene.surfaces[hit->surface].name : "nothing";
}

}  // namespace

TEST_CASE("first hit: the nearest surface that faces the eye", "[room][exact]") {
  const Scene scene = furnished_room();
  const Vector3d eye(1, 1, 1.2);
  CHECK(seen(scene, eye, {-1, 0, 0}) == "west");
  CHECK(seen(scene, eye, {0, -1, 0}) == "south");
  CHECK(seen(scene, eye, {0, 0, 1}) == "ceiling");
  CHECK(seen(scene, eye, {0, 0, -1}) == "floor");
  CHECK(seen(scene, eye, {1, 0, 0}) == "east");       // over the block, which is 1 m high
  CHECK(seen(scene, eye, {1, 0, -0.3}) == "block");   // its side at x = 2 is met at a height of 0.9 m
  CHECK(seen(scene, eye, {1, 0, -0.17}) == "block");  // down onto its top at x = 2.18
  CHECK(seen(scene, {1, 1, 0.5}, {1, 0, 0}) == "block");
  const auto hit = first_hit(scene, eye, Vector3d(1, 0, -0.3).normalized());
  REQUIRE(hit);
  // Two divisions of numbers near 1.
  CHECK((hit->position_m - Vector3d(2, 1, 0.9)).norm() < 1e-12);
}

TEST_CASE("first hit: past an inner corner", "[room][exact]") {
  const Scene scene = l_shaped_room();                   // 4 m by 4 m without the quarter from (2, 2) on
  CHECK(seen(scene, {1, 3, 1}, {1, 0, 0}) == "nook");    // the wall x = 2
  CHECK(seen(scene, {1, 3, 1}, {1, -2, 0}) == "south");  // clear of the corner
  CHECK(seen(scene, {1.8, 1.8, 1}, {1, 0.05, 0}) == "east");
  CHECK(seen(scene, {3, 1, 1}, {0, 1, 0}) == "hall");  // the wall y = 2
}

TEST_CASE("first hit: an eye that touches a surface sees it or away from it", "[room][exact]") {
  const Scene scene = furnished_room();
  CHECK(seen(scene, {0, 1, 1}, {-1, 0, 0}) == "west");
  CHECK(seen(scene, {0, 1, 1.5}, {1, 0, 0}) == "east");
  CHECK(seen(scene, {2.5, 1, 1}, {0, 0, -1}) == "block");
  CHECK(seen(scene, {2.5, 1, 1}, {1, 0, 0}) == "east");
}

TEST_CASE("first hit: something is seen in every direction, and nothing stands before it", "[room][property]") {
  const Scene scene = furnished_room();
  std::mt19937_64 random(11);
  std::uniform_real_distribution<double> unit(-1, 1);
  for (int i = 0; i < 2000; ++i) {
    const Vector3d eye(1 + 0.9 * unit(random), 2 + 1.9 * unit(random), 1.25 + 1.2 * unit(random));
    const Vector3d direction = Vector3d(unit(random), unit(random), unit(random)).normalized();
    const auto hit = first_hit(scene, eye, direction);
    REQUIRE(hit);
    const Surface& surface = scene.surfaces[hit->surface];
    CHECK(surface.normal.dot(direction) < 0);
    // A step back from the hit is still in the open.
    const Vector3d before = hit->position_m - 1e-4 * direction;
    CHECK(is_inside(scene.plan_m, before.head<2>()));
    CHECK_FALSE(is_inside(scene.boxes[0], before));
    CHECK_FALSE(is_crossed(scene.boxes[0], eye, before, 0));
  }
}
