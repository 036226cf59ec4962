#pragma once

#include <string>
#include <vector>

#include "evenlit/base/polygon.hpp"

namespace evenlit {

/// The plan of a rectangular room: the southwest corner at 0, 0, the south wall first.
inline Polygon rectangle_plan(double width_m, double depth_m) {
  return {{0, 0}, {width_m, 0}, {width_m, depth_m}, {0, depth_m}};
}

inline std::vector<std::string> rectangle_wall_names() { return {"south", "east", "north", "west"}; }

}  // namespace evenlit
