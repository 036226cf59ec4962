#include "evenlit/room/plan_visibility.hpp"

#include <algorithm>

namespace evenlit {
namespace {

double cross(const Eigen::Vector2d& a, const Eigen::Vector2d& b) { return a.x() * b.y() - a.y() * b.x(); }

/// Whether the whole plan lies to the left of the line through an edge.
bool is_on_hull(const Polygon& plan, const Eigen::Vector2d& start, const Eigen::Vector2d& along) {
  const double slack = 1e-9 * along.squaredNorm();
  return std::ranges::all_of(plan, [&](const auto& corner) { return cross(along, corner - start) >= -slack; });
}

/// Coordinates of points on walls may have been rounded to single precision; a point this near a wall stands on it.
double touching_distance(const Polygon& plan) {
  constexpr double k_relative = 1e-6;
  double extent = 0;
  for (const auto& corner : plan) extent = std::max(extent, corner.cwiseAbs().maxCoeff());
  return k_relative * extent;
}

}  // namespace

PlanVisibility::PlanVisibility(const Polygon& plan) : touching_m_(touching_distance(plan)) {
  for (std::size_t i = 0; i < plan.size(); ++i) {
    const Eigen::Vector2d along = plan[(i + 1) % plan.size()] - plan[i];
    if (!is_on_hull(plan, plan[i], along)) walls_.push_back({plan[i], along, along.norm()});
  }
}

bool PlanVisibility::blocks(const Wall& wall, const Eigen::Vector2d& from, const Eigen::Vector2d& to) const {
  const double from_side = cross(wall.along, from - wall.start);
  const double to_side = cross(wall.along, to - wall.start);
  const double touching = touching_m_ * wall.length_m;
  const bool apart = (from_side > touching && to_side < -touching) || (from_side < -touching && to_side > touching);
  if (!apart) return false;
  const Eigen::Vector2d ray = to - from;
  return cross(ray, wall.start - from) * cross(ray, wall.start + wall.along - from) <= 0;
}

bool PlanVisibility::is_clear(const Eigen::Vector2d& from, const Eigen::Vector2d& to) const {
  return std::ranges::none_of(walls_, [&](const Wall& wall) { return blocks(wall, from, to); });
}

Sight PlanVisibility::sight(std::span<const Eigen::Vector2d> from, std::span<const Eigen::Vector2d> to) const {
  bool clear = true;
  for (const auto& wall : walls_) {
    int blocked = 0;
    for (const auto& a : from) {
      for (const auto& b : to) blocked += blocks(wall, a, b);
    }
    if (blocked == static_cast<int>(from.size() * to.size())) return Sight::hidden;
    clear = clear && blocked == 0;
  }
  return clear ? Sight::clear : Sight::mixed;
}

}  // namespace evenlit
