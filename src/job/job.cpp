#include "evenlit/job/job.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/base/degrees.hpp"

namespace evenlit {
namespace {

/// The points x of the plan with normal . x = offset_m.
struct Line {
  Eigen::Vector2d normal;
  double offset_m = 0;
};

/// The line parallel to a taped wall through the centre of what the tape reaches, `half_m` wide to either side along x
/// and along y; empty when the room has no such wall.
std::optional<Line> centre_line(const Shape& room, const Taped& taped, const Eigen::Vector2d& half_m) {
  const auto wall = wall_index(room, taped.wall);
  if (!wall) return std::nullopt;
  const Eigen::Vector2d along = along_wall(room, *wall);
  const Eigen::Vector2d into_room(-along.y(), along.x());
  return Line{into_room, into_room.dot(room.corners_m[static_cast<std::size_t>(*wall)]) + taped.distance_m +
                             into_room.cwiseAbs().dot(half_m)};
}

/// Where the centre lines of two tape measurements cross; empty when a wall is unknown or they are parallel.
std::optional<Eigen::Vector2d> taped_centre(const Shape& room, const Taped (&from)[2], const Eigen::Vector2d& half_m) {
  const auto first = centre_line(room, from[0], half_m);
  const auto second = centre_line(room, from[1], half_m);
  if (!first || !second) return std::nullopt;

  const auto& [a, a_offset] = *first;
  const auto& [b, b_offset] = *second;
  // Walls within a few millionths of a degree of each other are parallel.
  constexpr double k_parallel_sine = 1e-7;
  const double sine = a.x() * b.y() - a.y() * b.x();
  if (std::abs(sine) < k_parallel_sine) return std::nullopt;
  return Eigen::Vector2d((a_offset * b.y() - b_offset * a.y()) / sine, (a.x() * b_offset - b.x() * a_offset) / sine);
}

}  // namespace

std::optional<int> wall_index(const Shape& room, std::string_view name) {
  const auto found = std::find(room.wall_names.begin(), room.wall_names.end(), name);
  if (found == room.wall_names.end()) return std::nullopt;
  return static_cast<int>(found - room.wall_names.begin());
}

Eigen::Vector2d along_wall(const Shape& room, int index) {
  const auto start = static_cast<std::size_t>(index);
  return (room.corners_m[(start + 1) % room.corners_m.size()] - room.corners_m[start]).normalized();
}

double wall_reflectance(const Job& job, int index) {
  const auto& own = job.finishes.wall;
  const auto found = own.find(job.room.wall_names[static_cast<std::size_t>(index)]);
  return found == own.end() ? job.finishes.walls : found->second;
}

SurfaceColour wall_colour(const Job& job, int index) {
  const auto& own = job.colours.wall;
  const auto found = own.find(job.room.wall_names[static_cast<std::size_t>(index)]);
  return found == own.end() ? job.colours.walls : found->second;
}

std::optional<Eigen::Vector2d> plan_position(const Shape& room, const Taped (&from)[2]) {
  return taped_centre(room, from, Eigen::Vector2d::Zero());
}

std::optional<Eigen::Vector2d> plan_position(const Shape& room, const Can& can) {
  return plan_position(room, can.from);
}

std::optional<Eigen::Vector2d> plan_position(const Shape& room, const NamedPoint& point) {
  return plan_position(room, point.from);
}

std::optional<Eigen::Vector2d> plan_centre(const Shape& room, const TapedRectangle& rectangle) {
  return taped_centre(room, rectangle.from, Eigen::Vector2d(rectangle.width_m, rectangle.depth_m) / 2);
}

Polygon corners_of(const Shape& room, const TapedRectangle& rectangle) {
  const Eigen::Vector2d centre = *plan_centre(room, rectangle);
  const Eigen::Vector2d along(cosine_of_degrees(rectangle.turn_deg), sine_of_degrees(rectangle.turn_deg));
  const Eigen::Vector2d across(-along.y(), along.x());
  Polygon corners;
  for (const auto& [u, v] : {std::pair{-0.5, -0.5}, {0.5, -0.5}, {0.5, 0.5}, {-0.5, 0.5}}) {
    corners.emplace_back(centre + u * rectangle.width_m * along + v * rectangle.depth_m * across);
  }
  return corners;
}

PlaneCorners corners_of(const Shape& room, const TaskArea& area) {
  if (const auto* corners = std::get_if<PlaneCorners>(&area.shape)) return *corners;
  const auto& rectangle = std::get<LevelRectangle>(area.shape);
  PlaneCorners corners;
  for (const Eigen::Vector2d& plan : corners_of(room, static_cast<const TapedRectangle&>(rectangle))) {
    corners.emplace_back(plan.x(), plan.y(), rectangle.height_m);
  }
  return corners;
}

}  // namespace evenlit
