#include "evenlit/room/visibility.hpp"

#include <algorithm>

namespace evenlit {
namespace {

/// Coordinates of points on faces may have been rounded to single precision.
double touching_distance(const Polygon& plan_m) {
  constexpr double k_relative = 2e-6;
  double extent = 1;
  for (const auto& corner : plan_m) extent = std::max(extent, corner.cwiseAbs().maxCoeff());
  return k_relative * extent;
}

}  // namespace

Visibility::Visibility(const Polygon& plan_m, std::vector<Box> boxes)
    : walls_(plan_m), boxes_(std::move(boxes)), touching_m_(touching_distance(plan_m)) {}

bool Visibility::is_clear(const Eigen::Vector3d& from, const Eigen::Vector3d& to) const {
  return walls_.is_clear(from.head<2>(), to.head<2>()) &&
         std::ranges::none_of(boxes_, [&](const Box& box) { return is_crossed(box, from, to, touching_m_); });
}

bool Visibility::is_clear(const Eigen::Vector3d& from, const Eigen::Vector3d& to, const Obstacles& obstacles) const {
  return walls_.is_clear(from.head<2>(), to.head<2>()) &&
         std::ranges::none_of(obstacles, [&](int i) { return is_crossed(boxes_[i], from, to, touching_m_); });
}

Visibility::View Visibility::view(const Figure& from, const Figure& to) const {
  View view{walls_.sight(from.plan_m, to.plan_m), {}};
  if (view.sight == Sight::hidden) return view;
  const double reach_m = std::max(from.radius_m, to.radius_m);
  for (int i = 0; i < static_cast<int>(boxes_.size()); ++i) {
    // Every line between the figures stays within their larger radius of the line between their centres.
    if (!is_crossed(boxes_[i], from.centre_m, to.centre_m, -reach_m)) continue;
    // Of a convex obstacle: what hides every corner of one figure from every corner of the other hides all.
    const bool hides_all = std::ranges::all_of(from.corners_m, [&](const Eigen::Vector3d& a) {
      return std::ranges::all_of(to.corners_m,
                                 [&](const Eigen::Vector3d& b) { return is_crossed(boxes_[i], a, b, touching_m_); });
    });
    if (hides_all) return {Sight::hidden, {}};
    view.sight = Sight::mixed;
    view.obstacles.push_back(i);
  }
  return view;
}

}  // namespace evenlit
