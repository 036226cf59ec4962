// Any job's room is closed, whatever its ceiling, walls and boxes.

#include <Eigen/Geometry>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "evenlit/job/walls.hpp"
#include "evenlit/room/scene.hpp"
#include "evenlit/room/flat_area.hpp"

using namespace evenlit;
using Eigen::Vector2d;
using Eigen::Vector3d;

namespace {

/// Sums over all free outlines.
struct Closure {
  Vector3d area_m2 = Vector3d::Zero();  ///< area x normal: zero in a closed room
  double volume_m3 = 0;                 ///< area x (-normal . x) / 3: what the faces enclose
};

Closure closure_of(const Scene& scene) {
  Closure closure;
  for (const Surface& surface : scene.surfaces) {
    for (const Outline& c : surface.free_m) {
      for (std::size_t i = 1; i + 1 < c.size(); ++i) {
        const double triangle_m2 = (c[i] - c[0]).cross(c[i + 1] - c[0]).dot(surface.normal) / 2;
        closure.area_m2 += triangle_m2 * surface.normal;
        closure.volume_m3 -= triangle_m2 * surface.normal.dot((c[0] + c[i] + c[i + 1]) / 3) / 3;
      }
    }
  }
  return closure;
}

/// The integral over the height of what a level plane cuts of the room, less the boxes there, by the midpoint rule
/// between the heights at which boxes begin and end.
class Volume {
 public:
  explicit Volume(const Scene& scene) : scene_(scene) {}

  [[nodiscard]] double without_boxes() const {
    constexpr int k_slabs = 40;
    std::vector<double> levels{0, scene_.ceiling.highest_m};
    for (const Box& box : scene_.boxes) {
      for (const double level : {box.bottom_m, box.top_m}) levels.push_back(std::min(level, scene_.ceiling.highest_m));
    }
    std::ranges::sort(levels);
    double sum = 0;
    for (std::size_t i = 0; i + 1 < levels.size(); ++i) {
      const double step = (levels[i + 1] - levels[i]) / k_slabs;
      for (int k = 0; step > 0 && k < k_slabs; ++k) sum += step * free_at(levels[i] + (k + 0.5) * step);
    }
    return sum;
  }

 private:
  /// Of the room at a height, less the boxes there.
  [[nodiscard]] double free_at(double z) const {
    Eigen::AlignedBox2d bounds;
    for (const Vector2d& corner : scene_.plan_m) bounds.extend(corner);
    Polygon below{
        bounds.min(), {bounds.max().x(), bounds.min().y()}, bounds.max(), {bounds.min().x(), bounds.max().y()}};
    for (const CeilingPlane& plane : scene_.ceiling.planes) {
      if (plane.rise.norm() == 0) {
        if (plane.height_m < z) return 0;
      } else {
        below = part_within(below, -plane.rise, plane.height_m - z);
      }
    }
    if (below.empty()) return 0;
    const FlatArea area = intersection(scene_.plan_m, below);
    std::vector<Polygon> boxes;
    for (const Box& box : scene_.boxes) {
      if (z < box.bottom_m || z > box.top_m) continue;
      const Vector2d u = box.half_m.x() * box.along;
      const Vector2d v = box.half_m.y() * Vector2d(-box.along.y(), box.along.x());
      const Vector2d& c = box.centre_m;
      boxes.push_back({c - u - v, c + u - v, c + u + v, c - u + v});
    }
    double sum = 0;
    for (const Polygon& outline : difference(area, boxes)) sum += signed_area(outline);
    return sum;
  }

  const Scene& scene_;
};

class RandomRooms {
 public:
  explicit RandomRooms(unsigned seed) : random_(seed) {}

  Job next() {
    Job job;
    job.room = plan();
    if (flip()) job.room.ceiling_m = between(2, 3.5);
    const std::size_t walls = job.room.wall_names.size();
    const int slopes = job.room.ceiling_m ? below(4) : 1 + below(4);
    for (int i = 0; i < slopes; ++i) {
      job.room.slopes.push_back({.wall = job.room.wall_names[below(static_cast<int>(walls))],
                                 .height_m = between(0.3, 2.5),
                                 .rise = flip() ? between(0.05, 1.5) : static_cast<double>(1 + below(16)) / 12});
    }
    const Ceiling ceiling = ceiling_of(job.room);
    for (int i = below(5); i > 0; --i) {
      WallArea candidate = area(job, i);
      if (!outline_on_wall(job.room, ceiling, candidate).empty()) job.wall_areas.push_back(std::move(candidate));
    }
    for (int i = below(9); i > 0; --i) job.obstructions.push_back(obstruction(job));
    return job;
  }

 private:
  bool flip() { return (random_() & 1u) != 0; }
  int below(int count) { return static_cast<int>(random_() % static_cast<unsigned>(count)); }
  double between(double least, double most) { return std::uniform_real_distribution(least, most)(random_); }

  /// Halves of a metre, so that things touch.
  double measure(double least, double most) {
    return flip() ? between(least, most) : std::max(least, std::round(2 * between(least, most)) / 2);
  }

  Shape plan() {
    const double x = measure(2, 7);
    const double y = measure(2, 7);
    Shape shape{.name = "", .corners_m = {{0, 0}, {x, 0}, {x, y}, {0, y}}};
    const int kind = below(4);
    if (kind == 1) shape.corners_m = {{0, 0}, {x, 0}, {x, y / 2}, {x / 2, y / 2}, {x / 2, y}, {0, y}};
    if (kind == 2) shape.corners_m = {{0, 0}, {x, 0}, {x, y}, {0.7 * x, y}, {0.6 * x, y / 3}, {x / 4, y / 2}, {0, y}};
    if (kind == 3) shape.corners_m = {{0, 0}, {x, 0.3}, {1.2 * x, y}, {0.3, 1.1 * y}};
    const double angle = flip() ? 0 : between(-3, 3);
    const Eigen::Matrix2d turn = Eigen::Rotation2Dd(angle).toRotationMatrix();
    for (Vector2d& corner : shape.corners_m) corner = turn * corner;
    for (std::size_t i = 0; i < shape.corners_m.size(); ++i) shape.wall_names.push_back("wall " + std::to_string(i));
    return shape;
  }

  WallArea area(const Job& job, int index) {
    const int wall = below(static_cast<int>(job.room.wall_names.size()));
    const auto [left, right] = neighbours_of(job.room, wall);
    WallArea area;
    area.name = std::to_string(index);
    area.wall = job.room.wall_names[wall];
    area.from = {job.room.wall_names[flip() ? left : right], measure(0, 2)};
    area.width_m = measure(0.5, 3);
    area.bottom_m = flip() ? 0 : measure(0, 1.5);
    area.top_m = area.bottom_m + measure(0.5, 2);
    return area;
  }

  Obstruction obstruction(const Job& job) {
    Obstruction box;
    box.name = "box";
    const int wall = below(static_cast<int>(job.room.wall_names.size()));
    box.from[0] = {job.room.wall_names[wall], measure(0, 2)};
    box.from[1] = {job.room.wall_names[neighbours_of(job.room, wall).left], measure(0, 2)};
    box.width_m = measure(0.5, 3);
    box.depth_m = measure(0.5, 2);
    box.bottom_m = flip() ? 0 : measure(0, 1.5);
    box.top_m = box.bottom_m + measure(0.5, 2);
    if (flip()) box.turn_deg = between(-90, 90);
    return box;
  }

  std::mt19937_64 random_;
};

}  // namespace

TEST_CASE("a room with slopes, wall areas and boxes is closed", "[room][property]") {
  RandomRooms rooms(20240601);
  int counted = 0;
  for (int i = 0; i < 1500; ++i) {
    CAPTURE(i);
    const Job job = rooms.next();
    const Ceiling ceiling = ceiling_of(job.room);
    if (ceiling.lowest_m < 0.01 || ceiling.highest_m > 20) continue;
    ++counted;
    const Scene scene = build_scene(job, {});
    const Closure closure = closure_of(scene);
    // What touches is told from what does not by 1e-5 m: an edge of a box, at most some 30 m of them a box, is off by
    // that, by more where it runs along a slope that is nearly level with it.
    const double tolerance_m2 = 1e-5 * 10 * (1 + static_cast<double>(scene.boxes.size()));
    CHECK(closure.area_m2.norm() < tolerance_m2);
  }
  CHECK(counted > 500);
}

TEST_CASE("the faces of a room enclose its volume without its boxes", "[room][property]") {
  RandomRooms rooms(20240602);
  int counted = 0;
  for (int i = 0; i < 60; ++i) {
    CAPTURE(i);
    const Job job = rooms.next();
    const Ceiling ceiling = ceiling_of(job.room);
    if (ceiling.lowest_m < 0.01 || ceiling.highest_m > 20) continue;
    ++counted;
    const Scene scene = build_scene(job, {});
    // The midpoint rule meets kinks of the cross-section with an error of 1/40 of a slab at most: some 1e-4 of the
    // room; and the faces are off by the 1e-5 m that tell what touches, times some 30 m2 a box.
    CHECK(closure_of(scene).volume_m3 == Approx(Volume(scene).without_boxes()).epsilon(1e-3).margin(3e-3));
  }
  CHECK(counted > 20);
}
