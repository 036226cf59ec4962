#include "room_surfaces.hpp"

#include <Eigen/Geometry>
#include <algorithm>

#include "evenlit/job/walls.hpp"
#include "evenlit/room/flat_area.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

Surface floor_of(const Job& job) {
  Outline corners;
  for (const Vector2d& corner : job.room.corners_m) corners.emplace_back(corner.x(), corner.y(), 0);
  return {.name = "floor",
          .part = Part::floor,
          .corners_m = corners,
          .free_m = {corners},
          .normal = Vector3d::UnitZ(),
          .reflectance = job.finishes.floor,
          .tint = tint_of(job.colours.floor)};
}

/// Where on a convex part of the plan a plane of the ceiling is the lowest, the first of several.
Polygon part_under(const Ceiling& ceiling, int index, Polygon part) {
  const CeilingPlane& own = ceiling.planes[index];
  for (int other = 0; other < static_cast<int>(ceiling.planes.size()) && !part.empty(); ++other) {
    if (other == index) continue;
    const CeilingPlane& plane = ceiling.planes[other];
    const Vector2d rise = own.rise - plane.rise;
    if (rise.norm() > 1e-12) {
      part = part_within(part, rise / rise.norm(), (plane.height_m - own.height_m) / rise.norm());
    } else if (plane.height_m < own.height_m || (plane.height_m == own.height_m && other < index)) {
      return {};
    }
  }
  return part;
}

std::string name_of(const Job& job, const Ceiling& ceiling, const CeilingPlane& plane) {
  if (ceiling.planes.size() == 1) return "ceiling";
  return plane.wall ? "ceiling, slope over " + job.room.wall_names[*plane.wall] : "ceiling, level part";
}

/// Plane by plane, piece by piece.
std::vector<Surface> ceiling_surfaces(const Job& job, const Ceiling& ceiling) {
  const Polygon& plan_m = job.room.corners_m;
  const auto surface = [&](const CeilingPlane& plane, const Polygon& piece) {
    Outline corners;
    for (const Vector2d& corner : piece) corners.emplace_back(corner.x(), corner.y(), plane.at(corner));
    std::ranges::reverse(corners);
    return Surface{.name = name_of(job, ceiling, plane),
                   .part = Part::ceiling,
                   .corners_m = corners,
                   .free_m = {corners},
                   .normal = plane.normal(),
                   .reflectance = job.finishes.ceiling,
                   .tint = tint_of(job.colours.ceiling)};
  };
  if (ceiling.planes.size() == 1) return {surface(ceiling.planes.front(), plan_m)};

  const Eigen::AlignedBox2d bounds = bounds_of(plan_m);
  const Vector2d size = bounds.sizes();
  const Polygon whole{bounds.min() - size, bounds.min() + Vector2d(2 * size.x(), -size.y()), bounds.max() + size,
                      bounds.min() + Vector2d(-size.x(), 2 * size.y())};
  std::vector<Surface> surfaces;
  for (int i = 0; i < static_cast<int>(ceiling.planes.size()); ++i) {
    const Polygon part = part_under(ceiling, i, whole);
    if (part.empty()) continue;
    // A piece has no holes: neither the plan nor what is under a plane has any.
    for (const Polygon& piece : intersection(plan_m, part)) {
      surfaces.push_back(surface(ceiling.planes[i], piece));
    }
  }
  return surfaces;
}

Vector3d wall_normal(const Shape& room, int wall) {
  const Vector2d along = (room.corners_m[(wall + 1) % room.corners_m.size()] - room.corners_m[wall]).normalized();
  return {-along.y(), along.x(), 0};
}

Outline lifted(const Shape& room, int wall, const Polygon& outline) {
  Outline corners;
  for (const Vector2d& corner : outline) corners.push_back(on_wall(room, wall, corner));
  return corners;
}

/// A figure on a wall without those that lie over it.
std::vector<Outline> uncovered(const Shape& room, int wall, const Polygon& figure, const std::vector<Polygon>& over) {
  if (over.empty()) return {lifted(room, wall, figure)};
  std::vector<Outline> outlines;
  for (const Polygon& outline : difference({figure}, over)) outlines.push_back(lifted(room, wall, outline));
  return outlines;
}

/// The wall areas on one wall from the one of that index on.
std::vector<Polygon> areas_from(const Job& job, const Ceiling& ceiling, int wall, std::size_t first) {
  std::vector<Polygon> outlines;
  for (std::size_t i = first; i < job.wall_areas.size(); ++i) {
    if (wall_index(job.room, job.wall_areas[i].wall) != wall) continue;
    Polygon outline = outline_on_wall(job.room, ceiling, job.wall_areas[i]);
    if (!outline.empty()) outlines.push_back(std::move(outline));
  }
  return outlines;
}

Surface wall_surface(const Job& job, const Ceiling& ceiling, int wall) {
  const Polygon outline = wall_outline(job.room, ceiling, wall);
  return {.name = job.room.wall_names[wall],
          .part = Part::wall,
          .corners_m = lifted(job.room, wall, outline),
          .free_m = uncovered(job.room, wall, outline, areas_from(job, ceiling, wall, 0)),
          .normal = wall_normal(job.room, wall),
          .reflectance = wall_reflectance(job, wall),
          .tint = tint_of(wall_colour(job, wall))};
}

Surface area_surface(const Job& job, const Ceiling& ceiling, std::size_t index) {
  const WallArea& area = job.wall_areas[index];
  const int wall = wall_index(job.room, area.wall).value();
  const Polygon outline = outline_on_wall(job.room, ceiling, area);
  return {.name = area.name,
          .part = Part::wall_area,
          .corners_m = lifted(job.room, wall, outline),
          .free_m = uncovered(job.room, wall, outline, areas_from(job, ceiling, wall, index + 1)),
          .normal = wall_normal(job.room, wall),
          .reflectance = area.reflectance,
          .tint = tint_of(area.colour)};
}

}  // namespace

std::vector<Surface> room_surfaces(const Job& job, const Ceiling& ceiling) {
  std::vector<Surface> surfaces{floor_of(job)};
  for (Surface& piece : ceiling_surfaces(job, ceiling)) surfaces.push_back(std::move(piece));
  for (int wall = 0; wall < static_cast<int>(job.room.corners_m.size()); ++wall) {
    surfaces.push_back(wall_surface(job, ceiling, wall));
  }
  for (std::size_t i = 0; i < job.wall_areas.size(); ++i) {
    Surface area = area_surface(job, ceiling, i);
    if (!area.corners_m.empty()) surfaces.push_back(std::move(area));
  }
  return surfaces;
}

}  // namespace evenlit
