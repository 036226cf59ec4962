#include "can_pattern.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/placing/line.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;

/// The can with its place and its circuit forgotten.
Can without_place(Can can) {
  for (Taped& taped : can.from) taped = {};
  can.circuit.reset();
  return can;
}

bool is_flush(const Can& can) { return !can.height_m && can.drop_m.value_or(0) == 0; }

}  // namespace

CanPattern pattern_of(const Job& job) {
  std::vector<Can> bare;
  for (const Can& can : job.cans) bare.push_back(without_place(can));
  CanPattern pattern{.can = {.type = job.can_types.front().name}};
  std::ptrdiff_t most = 0;
  for (const Can& can : bare) {
    const auto alike = std::ranges::count(bare, can);
    if (!is_flush(can) || alike <= most) continue;
    most = alike;
    pattern.can = can;
  }
  for (std::size_t i = 0; i < bare.size(); ++i) {
    (most > 0 && bare[i] == pattern.can ? pattern.cans : pattern.others).push_back(static_cast<int>(i));
  }
  return pattern;
}

Can placed(Can can, const Shape& room, const Vector2d& place_m) {
  const auto turn = [&](int wall) { return std::abs(left_of(along_wall(room, 0)).dot(along_wall(room, wall))); };
  int second = 1;
  for (int wall = 2; wall < std::ssize(room.corners_m); ++wall) {
    if (turn(wall) > turn(second)) second = wall;
  }
  const auto taped = [&](int wall) {
    const auto index = static_cast<std::size_t>(wall);
    return Taped{room.wall_names[index], left_of(along_wall(room, wall)).dot(place_m - room.corners_m[index])};
  };
  can.from[0] = taped(0);
  can.from[1] = taped(second);
  return can;
}

const CanType& type_named(const Job& job, const std::string& name) {
  return *std::ranges::find(job.can_types, name, &CanType::name);
}

}  // namespace evenlit
