#pragma once

#include <span>
#include <vector>

#include "evenlit/room/box.hpp"
#include "evenlit/room/plan_visibility.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit {

/// A convex, plane figure in the room, or a point.
struct Figure {
  Eigen::Vector3d centre_m;
  double radius_m = 0;  ///< no corner is farther from the centre
  std::span<const Eigen::Vector3d> corners_m;
  std::span<const Eigen::Vector2d> plan_m;  ///< the corners on the plan
};

/// Indices of boxes.
using Obstacles = std::vector<int>;

/// What the room's walls and boxes hide.
class Visibility {
 public:
  Visibility(const Polygon& plan_m, std::vector<Box> boxes);
  explicit Visibility(const Scene& scene) : Visibility(scene.plan_m, scene.boxes) {}

  /// Whether nothing can ever hide anything.
  [[nodiscard]] bool is_always_clear() const { return walls_.is_always_clear() && boxes_.empty(); }

  /// Whether the segment between two points of the room meets neither a wall nor a box. Touching is no meeting.
  [[nodiscard]] bool is_clear(const Eigen::Vector3d& from, const Eigen::Vector3d& to) const;

  /// The same between points of two figures, where only some boxes can stand between these.
  [[nodiscard]] bool is_clear(const Eigen::Vector3d& from, const Eigen::Vector3d& to, const Obstacles& obstacles) const;

  struct View {
    Sight sight = Sight::clear;
    Obstacles obstacles;
  };

  /// Clear when all of one figure sees all of the other, hidden only when one wall or box alone hides everything;
  /// mixed otherwise, to be sampled past the boxes that can stand between.
  [[nodiscard]] View view(const Figure& from, const Figure& to) const;

 private:
  PlanVisibility walls_;
  std::vector<Box> boxes_;
  double touching_m_;  ///< what runs no deeper than this into a box touches it
};

}  // namespace evenlit
