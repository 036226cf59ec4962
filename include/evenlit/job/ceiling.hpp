#pragma once

#include <optional>
#include <vector>

#include "evenlit/job/job.hpp"

namespace evenlit {

/// A plane of the ceiling: over the plan's point x its height is height_m + rise . x.
struct CeilingPlane {
  double height_m = 0;                             ///< over the plan's origin
  Eigen::Vector2d rise = Eigen::Vector2d::Zero();  ///< m per m along x and y; zero where it is level
  std::optional<int> wall;                         ///< from which it rises; empty where it is level

  [[nodiscard]] double at(const Eigen::Vector2d& plan_m) const { return height_m + rise.dot(plan_m); }

  /// Unit, into the room.
  [[nodiscard]] Eigen::Vector3d normal() const { return Eigen::Vector3d(rise.x(), rise.y(), -1).normalized(); }
};

/// The ceiling: over each point of the plan the lowest of its planes.
///
/// What is below a plane is convex, and so is what is below all of them. So the ceiling never stands between two points
/// of the room: what hides them from each other is walls, which the plan decides, and boxes.
struct Ceiling {
  std::vector<CeilingPlane> planes;  ///< some may be the lowest nowhere over the plan
  double lowest_m = 0;               ///< over the plan
  double highest_m = 0;              ///< over the plan

  /// Index of the plane that is the lowest over a point, the first of several.
  [[nodiscard]] int plane_over(const Eigen::Vector2d& plan_m) const;

  [[nodiscard]] double height_m(const Eigen::Vector2d& plan_m) const;

  [[nodiscard]] bool is_level() const { return lowest_m == highest_m; }
};

/// @param room whose slopes name walls of it, with a plan and at least one plane
Ceiling ceiling_of(const Shape& room);

}  // namespace evenlit
