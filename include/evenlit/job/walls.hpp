#pragma once

#include "evenlit/job/ceiling.hpp"

namespace evenlit {

// A wall as it is drawn from inside the room: x runs to the right along its foot, from corner i+1 of the plan to corner
// i, and y is the height above the floor.

/// From corner to corner of the plan.
double wall_length_m(const Shape& room, int wall);

/// The wall's outline up to the ceiling: convex, counter-clockwise.
Polygon wall_outline(const Shape& room, const Ceiling& ceiling, int wall);

/// The part of a rectangle that is on its wall: convex, counter-clockwise; no corners where there is none, or where
/// `from` names no neighbour of the wall.
Polygon outline_on_wall(const Shape& room, const Ceiling& ceiling, const WallRectangle& area);

/// The corners of a screen, counter-clockwise seen from the side that mirrors, from the lower left. What a slope cuts
/// off of one on a wall counts as if it were there.
PlaneCorners corners_of(const Shape& room, const Ceiling& ceiling, const Screen& screen);

/// A point of the wall in the room.
Eigen::Vector3d on_wall(const Shape& room, int wall, const Eigen::Vector2d& point);

/// The walls beside a wall: that at its left end as seen from inside the room, and that at its right end.
struct Neighbours {
  int left;
  int right;
};

Neighbours neighbours_of(const Shape& room, int wall);

/// Where a place on a wall is on the plan: on the wall's line, above which its cable reaches the ceiling.
///
/// @param place of which both walls are the room's and meet
Eigen::Vector2d plan_position(const Shape& room, const WallPlace& place);

}  // namespace evenlit
