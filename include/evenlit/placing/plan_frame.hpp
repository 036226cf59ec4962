#pragma once

#include <Eigen/Geometry>
#include <vector>

#include "evenlit/base/polygon.hpp"

namespace evenlit {

// The directions that a plan's walls have, and the rectangles that it is made of.

/// The plan's own directions: that which most of its walls run along or square to, by length, and square to it.
struct PlanFrame {
  Eigen::Vector2d along{1, 0};  ///< unit, within 45 degrees of east; east where it is so to 1 mm in a metre

  /// A point or a direction of the plan in the frame.
  [[nodiscard]] Eigen::Vector2d in(const Eigen::Vector2d& plan_m) const;
  /// A point or a direction of the frame on the plan.
  [[nodiscard]] Eigen::Vector2d out(const Eigen::Vector2d& frame_m) const;
  [[nodiscard]] Polygon in(const Polygon& plan_m) const;
};

/// The frame with that direction, turned by quarters until it is within 45 degrees of east.
PlanFrame frame_along(const Eigen::Vector2d& direction);

/// The frame that most of the plan's walls run along or square to, by length; of several as long that of the wall that
/// comes first.
PlanFrame frame_of(const Polygon& plan_m);

/// The rectangles that a plan of square corners is cut into, upright in its frame, from the south, then from the west.
///
/// Cuts go straight on from an inner corner along one of its walls to the wall opposite. Of all ways to cut the one
/// with the fewest rectangles is taken; of these one that is as symmetric as the plan; then the one whose most
/// elongated rectangle is the least so; then the one with the least sum of the ratios of their sides; then the one
/// whose rectangles come first from the south and west.
///
/// A plan that fills nine tenths of its bounding rectangle or more is that rectangle: what a chimney breast or a closet
/// takes off does not change how people spread cans. Walls count as square to each other to 5 mm in a metre, and as in
/// line to 10 mm. A plan with a corner that is not square is its bounding rectangle too, and one with more than eight
/// inner corners; where there are more than four, the order of the cuts is not tried.
std::vector<Eigen::AlignedBox2d> rectangles_of(const Polygon& plan_m);

}  // namespace evenlit
