#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "evenlit/room/visibility.hpp"
#include "field/rooms.hpp"
#include "reference/ray_scene.hpp"

using namespace evenlit;
using Eigen::Vector2d;
using Eigen::Vector3d;

namespace {

constexpr double k_ceiling_m = 2.6;

class Random {
 public:
  explicit Random(unsigned seed) : engine_(seed) {}
  double between(double low, double high) { return std::uniform_real_distribution<double>(low, high)(engine_); }
  int below(int count) { return std::uniform_int_distribution<int>(0, count - 1)(engine_); }

 private:
  std::mt19937 engine_;
};

/// As many corners as asked for, at random distances from the middle: re-entrant corners of all angles.
Polygon star(Random& random, int corners) {
  Polygon plan;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::numbers::pi * (i + random.between(-0.3, 0.3)) / corners;
    plan.push_back(Vector2d(3.5, 3.5) + random.between(1.2, 3.5) * Vector2d(std::cos(angle), std::sin(angle)));
  }
  return plan;
}

Polygon random_plan(Random& random) {
  const std::array<Polygon, 4> plans{Polygon{{0, 0}, {7, 0}, {7, 5}, {0, 5}},
                                     {{0, 0}, {5.6, 0}, {5.6, 2.7}, {3.1, 2.7}, {3.1, 5}, {0, 5}},
                                     {{0, 0}, {6, 0}, {6, 4}, {4, 4}, {4, 2}, {2, 2}, {2, 4}, {0, 4}},
                                     {{0, 0}, {4, 0}, {5, 1}, {5, 2.5}, {4, 3.5}, {0, 3.5}}};
  const int kind = random.below(8);
  return kind < 4 ? plans[kind] : star(random, 5 + random.below(8));
}

/// Anywhere, some standing, some hanging, some through each other or through a wall.
Box random_box(Random& random) {
  const double turn = random.below(2) == 0 ? 0 : random.between(0, std::numbers::pi);
  const double bottom = random.below(2) == 0 ? 0 : random.between(0.2, 1.8);
  return {.name = "box",
          .centre_m = {random.between(0, 7), random.between(0, 6)},
          .half_m = {random.between(0.05, 0.9), random.between(0.05, 0.9)},
          .along = {std::cos(turn), std::sin(turn)},
          .bottom_m = bottom,
          .top_m = std::min(k_ceiling_m, bottom + random.between(0.1, 2)),
          .reflectance = 0.5};
}

Scene random_room(Random& random) {
  Scene scene = testing::room_over(random_plan(random), k_ceiling_m);
  std::vector<Box> boxes(random.below(16));
  for (Box& box : boxes) box = random_box(random);
  place_boxes(scene, std::move(boxes));
  return scene;
}

/// A point of the room outside of all boxes.
Vector3d free_point(Random& random, const Scene& scene) {
  for (;;) {
    const Vector3d point(random.between(0, 7), random.between(0, 7), random.between(0, k_ceiling_m));
    const bool is_in_box = std::ranges::any_of(scene.boxes, [&](const Box& box) { return is_inside(box, point); });
    if (is_inside(scene.plan_m, point.head<2>()) && !is_in_box) return point;
  }
}

enum class Answer { clear, blocked, grazing };

/// What Embree says of a segment and of four copies beside it, 0.1 mm away; where these differ, the segment grazes an
/// edge or a face, or ends on one. Single-precision rays are off by some micrometres, and so is what `Visibility` calls
/// a touch: both far less than that.
Answer answer_of(const reference::RayScene& rays, const Vector3d& from, const Vector3d& to) {
  constexpr double k_beside_m = 1e-4;
  const Vector3d aside = k_beside_m * (to - from).unitOrthogonal();
  const Vector3d across = k_beside_m * (to - from).cross(aside).normalized();
  const bool is_clear = rays.is_clear(from, to);
  const bool all_agree =
      std::ranges::all_of(std::array<Vector3d, 4>{aside, -aside, across, -across},
                          [&](const auto& by) { return rays.is_clear(from + by, to + by) == is_clear; });
  if (!all_agree) return Answer::grazing;
  return is_clear ? Answer::clear : Answer::blocked;
}

}  // namespace

// An independent program: Embree meets the faces of walls and boxes one by one, where the engine looks at the plan and
// at whole boxes.
TEST_CASE("segments through random rooms are hidden where Embree's rays are", "[room][reference]") {
  Random random(20);
  int count = 0;
  int grazing = 0;
  int blocked = 0;
  for (int room = 0; room < 120; ++room) {
    const Scene scene = random_room(random);
    const Visibility visibility(scene);
    const reference::RayScene rays(scene.surfaces);
    for (int segment = 0; segment < 1000; ++segment) {
      const Vector3d from = free_point(random, scene);
      const Vector3d to = free_point(random, scene);
      const Answer answer = answer_of(rays, from, to);
      ++count;
      grazing += answer == Answer::grazing;
      blocked += answer == Answer::blocked;
      if (answer == Answer::grazing || visibility.is_clear(from, to) == (answer == Answer::clear)) continue;
      CAPTURE(room, segment, from.transpose(), to.transpose());
      FAIL_CHECK("disagrees with Embree");
    }
  }
  // Both answers are common, and few segments were left out.
  CHECK(blocked > 0.2 * count);
  CHECK(blocked < 0.8 * count);
  CHECK(grazing < 0.01 * count);
}

// Light mostly leaves from faces and arrives on faces: ends that lie on them, a touch in front for single precision.
TEST_CASE("segments between points on faces are hidden where Embree's rays are", "[room][reference]") {
  Random random(21);
  constexpr double k_before_face_m = 2e-4;  // farther than the copies beside the segment
  int count = 0;
  int grazing = 0;
  for (int room = 0; room < 60; ++room) {
    const Scene scene = random_room(random);
    const Visibility visibility(scene);
    const reference::RayScene rays(scene.surfaces);
    for (int segment = 0; segment < 1000; ++segment) {
      const Vector3d from = free_point(random, scene);
      const Vector3d toward = Vector3d(random.between(-1, 1), random.between(-1, 1), random.between(-1, 1));
      const auto hit = rays.first_hit(from, toward);
      if (!hit || scene.surfaces[hit->surface].normal.dot(toward) >= 0) continue;
      const Vector3d& normal = scene.surfaces[hit->surface].normal;
      const Vector3d to = free_point(random, scene);
      if (normal.dot(to - hit->point_m) <= 0) continue;
      const Answer answer = answer_of(rays, hit->point_m + k_before_face_m * normal, to);
      ++count;
      grazing += answer == Answer::grazing;
      if (answer == Answer::grazing || visibility.is_clear(hit->point_m, to) == (answer == Answer::clear)) continue;
      CAPTURE(room, segment, hit->point_m.transpose(), to.transpose());
      FAIL_CHECK("disagrees with Embree");
    }
  }
  CHECK(grazing < 0.02 * count);
  CHECK(count > 10'000);
}
