#include "evenlit/job/ceiling.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace evenlit {
namespace {

CeilingPlane plane_of(const Shape& room, const Slope& slope) {
  const int wall = wall_index(room, slope.wall).value();
  const Eigen::Vector2d& start = room.corners_m[wall];
  const Eigen::Vector2d& end = room.corners_m[(wall + 1) % room.corners_m.size()];
  const Eigen::Vector2d along = (end - start).normalized();
  const Eigen::Vector2d rise = slope.rise * Eigen::Vector2d(-along.y(), along.x());
  return {.height_m = slope.height_m - rise.dot(start), .rise = rise, .wall = wall};
}

/// Where two planes are level with each other: rise . x = height.
struct Meeting {
  Eigen::Vector2d rise;
  double height_m;
};

std::vector<Meeting> meetings_of(const std::vector<CeilingPlane>& planes) {
  std::vector<Meeting> meetings;
  for (std::size_t i = 0; i < planes.size(); ++i) {
    for (std::size_t j = i + 1; j < planes.size(); ++j) {
      meetings.push_back({planes[i].rise - planes[j].rise, planes[j].height_m - planes[i].height_m});
    }
  }
  return meetings;
}

/// The highest point of the ceiling is over a corner, or where a wall meets the line of two planes, or where three
/// planes meet inside the plan.
double highest(const Ceiling& ceiling, const Polygon& plan_m) {
  double highest_m = 0;
  const auto raise = [&](const Eigen::Vector2d& point) { highest_m = std::max(highest_m, ceiling.height_m(point)); };
  const std::vector<Meeting> meetings = meetings_of(ceiling.planes);
  for (std::size_t i = 0; i < plan_m.size(); ++i) {
    const Eigen::Vector2d& start = plan_m[i];
    const Eigen::Vector2d along = plan_m[(i + 1) % plan_m.size()] - start;
    raise(start);
    for (const auto& [rise, height_m] : meetings) {
      const double t = (height_m - rise.dot(start)) / rise.dot(along);
      if (t > 0 && t < 1) raise(start + t * along);
    }
  }
  for (std::size_t i = 0; i < meetings.size(); ++i) {
    for (std::size_t j = i + 1; j < meetings.size(); ++j) {
      const auto& [a, a_m] = meetings[i];
      const auto& [b, b_m] = meetings[j];
      const double determinant = a.x() * b.y() - a.y() * b.x();
      if (std::abs(determinant) < 1e-12 * a.norm() * b.norm()) continue;
      const Eigen::Vector2d point((a_m * b.y() - b_m * a.y()) / determinant, (a.x() * b_m - b.x() * a_m) / determinant);
      if (ceiling.height_m(point) > highest_m && is_inside(plan_m, point)) raise(point);
    }
  }
  return highest_m;
}

}  // namespace

int Ceiling::plane_over(const Eigen::Vector2d& plan_m) const {
  const auto lowest = std::ranges::min_element(planes, {}, [&](const CeilingPlane& plane) { return plane.at(plan_m); });
  return static_cast<int>(lowest - planes.begin());
}

double Ceiling::height_m(const Eigen::Vector2d& plan_m) const { return planes[plane_over(plan_m)].at(plan_m); }

Ceiling ceiling_of(const Shape& room) {
  Ceiling ceiling;
  if (room.ceiling_m) ceiling.planes.push_back({.height_m = *room.ceiling_m});
  for (const Slope& slope : room.slopes) ceiling.planes.push_back(plane_of(room, slope));
  ceiling.lowest_m = std::numeric_limits<double>::infinity();
  for (const auto& corner : room.corners_m) ceiling.lowest_m = std::min(ceiling.lowest_m, ceiling.height_m(corner));
  ceiling.highest_m = highest(ceiling, room.corners_m);
  return ceiling;
}

}  // namespace evenlit
