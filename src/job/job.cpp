#include "evenlit/job/job.hpp"

#include <algorithm>
#include <cmath>

namespace evenlit {
namespace {

/// The points x of the plan with normal . x = offset_m.
struct Line {
  Eigen::Vector2d normal;
  double offset_m = 0;
};

/// The line at a distance into the room from a wall, parallel to it.
Line taped_line(const Shape& room, int wall, double distance_m) {
  const auto start_index = static_cast<std::size_t>(wall);
  const Eigen::Vector2d& start = room.corners_m[start_index];
  const Eigen::Vector2d& end = room.corners_m[(start_index + 1) % room.corners_m.size()];
  const Eigen::Vector2d along = (end - start).normalized();
  const Eigen::Vector2d into_room(-along.y(), along.x());
  return {into_room, into_room.dot(start) + distance_m};
}

}  // namespace

std::optional<int> wall_index(const Shape& room, std::string_view name) {
  const auto found = std::find(room.wall_names.begin(), room.wall_names.end(), name);
  if (found == room.wall_names.end()) return std::nullopt;
  return static_cast<int>(found - room.wall_names.begin());
}

double wall_reflectance(const Job& job, int index) {
  const auto& own = job.finishes.wall;
  const auto found = own.find(job.room.wall_names[static_cast<std::size_t>(index)]);
  return found == own.end() ? job.finishes.walls : found->second;
}

std::optional<Eigen::Vector2d> plan_position(const Shape& room, const Can& can) {
  const auto first = wall_index(room, can.from[0].wall);
  const auto second = wall_index(room, can.from[1].wall);
  if (!first || !second) return std::nullopt;

  const auto [a, a_offset] = taped_line(room, *first, can.from[0].distance_m);
  const auto [b, b_offset] = taped_line(room, *second, can.from[1].distance_m);
  // Walls within a few millionths of a degree of each other are parallel.
  constexpr double k_parallel_sine = 1e-7;
  const double sine = a.x() * b.y() - a.y() * b.x();
  if (std::abs(sine) < k_parallel_sine) return std::nullopt;
  return Eigen::Vector2d((a_offset * b.y() - b_offset * a.y()) / sine, (a.x() * b_offset - b.x() * a_offset) / sine);
}

}  // namespace evenlit
