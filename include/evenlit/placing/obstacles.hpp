#pragma once

#include <string>
#include <vector>

#include "evenlit/placing/framing.hpp"
#include "evenlit/placing/rounded_hull.hpp"

namespace evenlit {

/// What a hole or a housing can run into.
struct Obstacle {
  enum class Kind { framing, keep_out, wall, box, can };

  Kind kind = Kind::framing;
  std::string name;        ///< several may share one: joists, the pieces of a keep-out that is not convex
  RoundedHull shape;       ///< on the plan
  double clearance_m = 0;  ///< that its own rule asks of everything
};

/// All that stays where it is: strips, keep-outs, walls, and the job's boxes where they reach the ceiling.
///
/// @param job one that `read_job` would accept
std::vector<Obstacle> fixed_obstacles(const Job& job, const Framing& framing);

/// A can as the others find it: its hole, and its housing when it has one.
///
/// @param type  with a hole
/// @param along where the housing's length points, unit
std::vector<Obstacle> obstacles_of(const CanType& type, const std::string& name, const Eigen::Vector2d& centre_m,
                                   const Eigen::Vector2d& along);

/// A housing's corners about a point, counter-clockwise.
Polygon housing_corners(const Housing& housing, const Eigen::Vector2d& centre_m, const Eigen::Vector2d& along);

}  // namespace evenlit
