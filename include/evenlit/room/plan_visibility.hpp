#pragma once

#include <Eigen/Core>
#include <span>
#include <vector>

#include "evenlit/base/polygon.hpp"

namespace evenlit {

/// How much of one thing another thing sees.
enum class Sight { clear, hidden, mixed };

/// What walls that stand upright from floor to ceiling hide: two points of the room see each other exactly when their
/// places on the plan do.
class PlanVisibility {
 public:
  explicit PlanVisibility(const Polygon& plan);

  /// Whether no wall can ever hide anything: the plan is convex.
  [[nodiscard]] bool is_always_clear() const { return walls_.empty(); }

  /// Whether the segment between two points inside the plan or on its outline stays inside. Touching a wall is no
  /// crossing.
  [[nodiscard]] bool is_clear(const Eigen::Vector2d& from, const Eigen::Vector2d& to) const;

  /// The same between two convex figures inside the plan, each given by its corners: clear when all of one sees all of
  /// the other, hidden only when one wall alone hides everything; mixed otherwise, to be sampled.
  [[nodiscard]] Sight sight(std::span<const Eigen::Vector2d> from, std::span<const Eigen::Vector2d> to) const;

 private:
  struct Wall {
    Eigen::Vector2d start;
    Eigen::Vector2d along;  ///< to the other end
    double length_m;
  };
  [[nodiscard]] bool blocks(const Wall& wall, const Eigen::Vector2d& from, const Eigen::Vector2d& to) const;

  double touching_m_;        ///< a point this near a wall stands on it
  std::vector<Wall> walls_;  ///< those that can stand between two points: not on the plan's convex hull
};

}  // namespace evenlit
