#include "evenlit/room/wall_grid.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/job/walls.hpp"
#include "evenlit/room/visibility.hpp"
#include "free_area.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

/// Into the room.
Vector2d normal_of(const Shape& room, int wall) {
  const Vector2d along = along_wall(room, wall);
  return {-along.y(), along.x()};
}

/// A point of the room in the coordinates of a wall.
Vector2d flat_on_wall(const Shape& room, int wall, const Vector3d& point) {
  const Vector2d& left = room.corners_m[(wall + 1) % room.corners_m.size()];
  return {-along_wall(room, wall).dot(point.head<2>() - left), point.z()};
}

std::vector<WallPart> areas_on(const Job& job, const Ceiling& ceiling, int wall) {
  std::vector<WallPart> areas;
  for (const WallArea& area : job.wall_areas) {
    if (wall_index(job.room, area.wall) != wall) continue;
    Polygon outline = outline_on_wall(job.room, ceiling, area);
    if (!outline.empty()) areas.push_back({area.name, std::move(outline)});
  }
  return areas;
}

std::vector<WallPart> covered_on(const Shape& room, const Scene& scene, int wall, const Polygon& outline_m) {
  Outline corners;
  for (const Vector2d& corner : outline_m) corners.push_back(on_wall(room, wall, corner));
  const Vector2d normal = normal_of(room, wall);
  std::vector<WallPart> covered;
  for (const auto& [box, outline] : covered_parts(corners, {normal.x(), normal.y(), 0}, scene.boxes)) {
    WallPart& part = covered.emplace_back(WallPart{scene.boxes[box].name, {}});
    for (const Vector3d& corner : outline) part.outline_m.push_back(flat_on_wall(room, wall, corner));
  }
  return covered;
}

/// Before the wall, with no other wall between.
std::vector<LuminaireBefore> all_before(const Shape& room, const Scene& scene, int wall) {
  constexpr double k_touch_m = 1e-3;
  const Visibility walls(scene.plan_m, {});
  const double length_m = wall_length_m(room, wall);
  const Vector2d normal = normal_of(room, wall);
  std::vector<LuminaireBefore> found;
  for (int i = 0; i < static_cast<int>(scene.luminaires.size()); ++i) {
    const Vector3d& position = scene.luminaires[i].position_m;
    const double along_m = flat_on_wall(room, wall, position).x();
    const double distance_m = normal.dot(position.head<2>() - room.corners_m[wall]);
    if (along_m < 0 || along_m > length_m || distance_m < 0) continue;
    const Vector2d before = position.head<2>() - std::max(0.0, distance_m - k_touch_m) * normal;
    if (walls.is_clear(position, {before.x(), before.y(), position.z()})) found.push_back({i, along_m, distance_m});
  }
  return found;
}

std::vector<LuminaireBefore> nearest_before(const Shape& room, const Scene& scene, int wall) {
  constexpr double k_same_place_m = 0.1;  // cans of a row that a tape put in line
  std::vector<LuminaireBefore> all = all_before(room, scene, wall);
  std::ranges::stable_sort(all, {}, &LuminaireBefore::distance_m);
  std::vector<LuminaireBefore> nearest;
  for (const LuminaireBefore& one : all) {
    const auto is_behind = [&](const LuminaireBefore& other) {
      return std::abs(other.along_m - one.along_m) < k_same_place_m;
    };
    if (std::ranges::none_of(nearest, is_behind)) nearest.push_back(one);
  }
  std::ranges::stable_sort(nearest, {}, &LuminaireBefore::along_m);
  return nearest;
}

WallGrid wall_grid(const Job& job, const Scene& scene, int wall, double spacing_m) {
  WallGrid grid;
  grid.wall = wall;
  grid.outline_m = wall_outline(job.room, scene.ceiling, wall);
  grid.areas = areas_on(job, scene.ceiling, wall);
  grid.covered = covered_on(job.room, scene, wall, grid.outline_m);
  grid.luminaires = nearest_before(job.room, scene, wall);
  const Eigen::AlignedBox2d bounds = bounds_of(grid.outline_m);
  const auto cells = [&](double length_m) {
    return k_wall_block * static_cast<int>(std::ceil(length_m / (k_wall_block * spacing_m) - 1e-9));
  };
  const auto is_free = [&](const Vector2d& point) {
    const auto covers = [&](const WallPart& part) { return is_inside(part.outline_m, point); };
    return is_inside(grid.outline_m, point) && std::ranges::none_of(grid.covered, covers);
  };
  grid.lattice = lattice_over(bounds, cells(bounds.sizes().x()), cells(bounds.sizes().y()), is_free);
  return grid;
}

}  // namespace

std::vector<WallGrid> wall_grids(const Job& job, const Scene& scene) {
  const double area_m2 = perimeter(job.room.corners_m) * scene.ceiling.highest_m;
  const double spacing_m = std::max(k_wall_spacing_m, std::sqrt(area_m2 / k_most_wall_cells));
  const int count = static_cast<int>(job.room.corners_m.size());
  std::vector<WallGrid> grids;
  for (int i = 0; i < count; ++i) grids.push_back(wall_grid(job, scene, (count - i) % count, spacing_m));
  return grids;
}

std::vector<Receiver> receivers_on(const Shape& room, int wall, const std::vector<Vector2d>& points_m) {
  const Vector2d normal = normal_of(room, wall);
  std::vector<Receiver> receivers;
  for (const Vector2d& point : points_m) receivers.push_back({on_wall(room, wall, point), {normal.x(), normal.y(), 0}});
  return receivers;
}

}  // namespace evenlit
