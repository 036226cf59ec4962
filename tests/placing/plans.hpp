#pragma once

#include <Eigen/Geometry>
#include <algorithm>
#include <numbers>

#include "evenlit/base/polygon.hpp"

namespace evenlit {

/// A square of 6 m without its northeast quarter.
inline const Polygon k_l{{0, 0}, {6, 0}, {6, 3}, {3, 3}, {3, 6}, {0, 6}};
/// A bar of 9 m x 3 m on a stem of 3 m x 3 m.
inline const Polygon k_t{{3, 0}, {6, 0}, {6, 3}, {9, 3}, {9, 6}, {0, 6}, {0, 3}, {3, 3}};
/// 8 m x 6 m with a notch of 2 m x 3 m in the middle of its north side.
inline const Polygon k_u{{0, 0}, {8, 0}, {8, 6}, {5, 6}, {5, 3}, {3, 3}, {3, 6}, {0, 6}};
/// Two bars of 5 m x 3 m, the northern one 3 m farther east.
inline const Polygon k_z{{0, 0}, {5, 0}, {5, 3}, {8, 3}, {8, 6}, {3, 6}, {3, 3}, {0, 3}};
/// Two bars of 9 m x 3 m and 3 m x 8 m across each other.
inline const Polygon k_cross{{3, 0}, {6, 0}, {6, 2}, {9, 2}, {9, 5}, {6, 5},
                             {6, 8}, {3, 8}, {3, 5}, {0, 5}, {0, 2}, {3, 2}};
/// Five steps, down to the east.
inline const Polygon k_stair{{0, 0}, {9, 0}, {9, 2}, {8, 2}, {8, 4}, {6, 4},
                             {6, 5}, {4, 5}, {4, 7}, {3, 7}, {3, 8}, {0, 8}};

/// Counter-clockwise about the origin.
inline Polygon turned(Polygon plan, double turn_deg) {
  for (Eigen::Vector2d& corner : plan) corner = Eigen::Rotation2Dd(turn_deg * std::numbers::pi / 180) * corner;
  return plan;
}

/// x as -x.
inline Polygon mirrored(Polygon plan) {
  for (Eigen::Vector2d& corner : plan) corner.x() = -corner.x();
  std::ranges::reverse(plan);
  return plan;
}

}  // namespace evenlit
