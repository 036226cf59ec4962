#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "evenlit/job/mounting.hpp"
#include "evenlit/job/walls.hpp"
#include "evenlit/room/scene.hpp"
#include "evenlit/room/visibility.hpp"
#include "evenlit/view/camera.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

// Common practice, no source.
constexpr double k_eye_m = 1.6;
constexpr double k_below_ceiling_m = 0.15;
constexpr double k_from_walls_m = 0.3;
constexpr double k_tilt_deg = -5;
constexpr double k_width_deg = 85;

constexpr double k_rounding_m = 1e-6;

double cross(const Vector2d& a, const Vector2d& b) { return a.x() * b.y() - a.y() * b.x(); }

Vector2d into_room(const Shape& room, int wall) {
  const Vector2d along = along_wall(room, wall);
  return {-along.y(), along.x()};
}

/// A place of the plan by tape from two walls that meet.
void tape(const Shape& room, int wall, const Vector2d& plan_m, Taped (&from)[2]) {
  const auto walls = static_cast<int>(room.corners_m.size());
  constexpr double k_least_angle = 0.1;
  int other = (wall + 1) % walls;
  while (std::abs(cross(along_wall(room, wall), along_wall(room, other))) < k_least_angle) other = (other + 1) % walls;
  const auto taped = [&](int index) {
    const auto i = static_cast<std::size_t>(index);
    return Taped{room.wall_names[i], into_room(room, index).dot(plan_m - room.corners_m[i])};
  };
  from[0] = taped(wall);
  from[1] = taped(other);
}

/// The room and what stands in it.
Scene empty_scene(Job job) {
  job.cans.clear();
  return build_scene(job, {});
}

/// Where an eye may be on the plan, and what it sees from there at its own height.
class Places {
 public:
  explicit Places(const Job& job) : job_(job), scene_(empty_scene(job)), visibility_(scene_) {
    const Eigen::AlignedBox2d bounds = bounds_of(job.room.corners_m);
    constexpr int k_cells = 16;
    for (int row = 0; row < k_cells; ++row) {
      for (int column = 0; column < k_cells; ++column) {
        const Vector2d cell = Vector2d(column + 0.5, row + 0.5) / k_cells;
        const Vector2d place = bounds.min() + cell.cwiseProduct(bounds.sizes());
        if (is_inside(job.room.corners_m, place)) raster_.push_back(place);
      }
    }
  }

  [[nodiscard]] const std::vector<Vector2d>& raster() const { return raster_; }

  [[nodiscard]] double eye_height_m(const Vector2d& plan_m) const {
    const double below_ceiling_m = scene_.ceiling.height_m(plan_m) - k_below_ceiling_m;
    return std::min(k_eye_m, std::max(below_ceiling_m, scene_.ceiling.height_m(plan_m) / 2));
  }

  [[nodiscard]] Vector3d eye_over(const Vector2d& plan_m) const {
    return {plan_m.x(), plan_m.y(), eye_height_m(plan_m)};
  }

  [[nodiscard]] bool is_in_the_open(const Vector2d& plan_m) const {
    return is_inside(job_.room.corners_m, plan_m) &&
           obstruction_around(job_.obstructions, job_.room, scene_.ceiling, eye_over(plan_m)) == nullptr;
  }

  [[nodiscard]] bool sees(const Vector2d& from, const Vector2d& to) const {
    return visibility_.is_clear(eye_over(from), eye_over(to));
  }

  [[nodiscard]] std::vector<Vector2d> in_sight(const Vector2d& from) const {
    std::vector<Vector2d> seen;
    std::ranges::copy_if(raster_, std::back_inserter(seen), [&](const Vector2d& to) { return sees(from, to); });
    return seen;
  }

  /// In the open, with most of the plan in sight, the first of several; empty where none is in the open.
  [[nodiscard]] std::optional<Vector2d> best_of(const std::vector<Vector2d>& places) const {
    std::optional<Vector2d> best;
    std::size_t most = 0;
    for (const Vector2d& place : places) {
      if (!is_in_the_open(place)) continue;
      const std::size_t seen = in_sight(place).size();
      if (best && seen <= most) continue;
      best = place;
      most = seen;
    }
    return best;
  }

  [[nodiscard]] std::optional<Vector2d> at_door() const {
    for (const WallArea& area : job_.wall_areas) {
      if (area.kind != WallArea::Kind::door) continue;
      const int wall = wall_index(job_.room, area.wall).value();
      const Polygon outline = outline_on_wall(job_.room, scene_.ceiling, area);
      if (outline.empty()) continue;
      const Vector3d middle = on_wall(job_.room, wall, bounds_of(outline).center());
      const Vector2d place = middle.head<2>() + k_from_walls_m * into_room(job_.room, wall);
      if (is_in_the_open(place) && sees(middle.head<2>(), place)) return place;
    }
    return std::nullopt;
  }

  /// In every corner that does not stand into the room: as far from both walls.
  [[nodiscard]] std::vector<Vector2d> in_corners() const {
    const Polygon& plan = job_.room.corners_m;
    const auto walls = static_cast<int>(plan.size());
    std::vector<Vector2d> places;
    for (int i = 0; i < walls; ++i) {
      const int before = (i + walls - 1) % walls;
      if (cross(along_wall(job_.room, before), along_wall(job_.room, i)) < k_rounding_m) continue;
      Eigen::Matrix2d normals;
      normals << into_room(job_.room, before).transpose(), into_room(job_.room, i).transpose();
      const Vector2d place = plan[i] + normals.inverse() * Vector2d::Constant(k_from_walls_m);
      if (is_inside(plan, place) && distance_to_outline(plan, place) >= k_from_walls_m - k_rounding_m) {
        places.push_back(place);
      }
    }
    return places;
  }

 private:
  const Job& job_;
  Scene scene_;
  Visibility visibility_;
  std::vector<Vector2d> raster_;  ///< places that stand for the plan
};

double toward_middle_of(const std::vector<Vector2d>& places, const Vector2d& eye) {
  Vector2d sum = Vector2d::Zero();
  for (const Vector2d& place : places) sum += place - eye;
  return std::atan2(sum.y(), sum.x()) * 180 / std::numbers::pi;
}

}  // namespace

std::optional<Viewpoint> default_viewpoint(const Job& job) {
  const Places places(job);
  std::optional<Vector2d> eye = places.at_door();
  if (!eye) eye = places.best_of(places.in_corners());
  if (!eye) eye = places.best_of(places.raster());
  if (!eye) return std::nullopt;
  Viewpoint view{.height_m = places.eye_height_m(*eye),
                 .at = Looking{.toward_deg = toward_middle_of(places.in_sight(*eye), *eye), .tilt_deg = k_tilt_deg},
                 .width_deg = k_width_deg};
  tape(job.room, 0, *eye, view.from);
  return view;
}

}  // namespace evenlit
