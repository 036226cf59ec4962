#include "evenlit/job/walls.hpp"

namespace evenlit {
namespace {

struct Foot {
  const Eigen::Vector2d& left;
  const Eigen::Vector2d& right;
};

Foot foot_of(const Shape& room, int wall) {
  return {room.corners_m[(wall + 1) % room.corners_m.size()], room.corners_m[wall]};
}

/// What of a figure on a wall is below the ceiling.
Polygon below(const Ceiling& ceiling, Polygon figure, const Foot& foot) {
  const Eigen::Vector2d along = (foot.right - foot.left).normalized();
  for (const CeilingPlane& plane : ceiling.planes) {
    figure = part_within(figure, {-plane.rise.dot(along), 1}, plane.at(foot.left));
  }
  return figure;
}

Polygon rectangle(double left, double right, double bottom, double top) {
  return {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
}

}  // namespace

double wall_length_m(const Shape& room, int wall) {
  const auto [left, right] = foot_of(room, wall);
  return (right - left).norm();
}

Polygon wall_outline(const Shape& room, const Ceiling& ceiling, int wall) {
  return below(ceiling, rectangle(0, wall_length_m(room, wall), 0, ceiling.highest_m), foot_of(room, wall));
}

Polygon outline_on_wall(const Shape& room, const Ceiling& ceiling, const WallRectangle& area) {
  const auto wall = wall_index(room, area.wall);
  const auto from = wall_index(room, area.from.wall);
  if (!wall || !from) return {};
  const auto [left, right] = neighbours_of(room, *wall);
  if (from != left && from != right) return {};
  const double length = wall_length_m(room, *wall);
  const double start = from == left ? area.from.distance_m : length - area.from.distance_m - area.width_m;
  const double end = std::min(start + area.width_m, length);
  const double top = std::min(area.top_m, ceiling.highest_m);
  if (end <= std::max(start, 0.0) || top <= area.bottom_m) return {};
  return below(ceiling, rectangle(std::max(start, 0.0), end, area.bottom_m, top), foot_of(room, *wall));
}

PlaneCorners corners_of(const Shape& room, const Ceiling& ceiling, const Screen& screen) {
  if (const auto* corners = std::get_if<PlaneCorners>(&screen.shape)) return *corners;
  const auto& rectangle = std::get<WallRectangle>(screen.shape);
  const Eigen::AlignedBox2d box = bounds_of(outline_on_wall(room, ceiling, rectangle));
  const int wall = *wall_index(room, rectangle.wall);
  PlaneCorners corners;
  for (const Eigen::Vector2d& corner : {box.min(), Eigen::Vector2d(box.max().x(), box.min().y()), box.max(),
                                        Eigen::Vector2d(box.min().x(), box.max().y())}) {
    corners.push_back(on_wall(room, wall, corner));
  }
  return corners;
}

Eigen::Vector3d on_wall(const Shape& room, int wall, const Eigen::Vector2d& point) {
  const auto [left, right] = foot_of(room, wall);
  const double share = point.x() / (right - left).norm();
  const Eigen::Vector2d plan = (1 - share) * left + share * right;
  return {plan.x(), plan.y(), point.y()};
}

Neighbours neighbours_of(const Shape& room, int wall) {
  const int count = static_cast<int>(room.corners_m.size());
  return {.left = (wall + 1) % count, .right = (wall + count - 1) % count};
}

Eigen::Vector2d plan_position(const Shape& room, const WallPlace& place) {
  const int wall = wall_index(room, place.wall).value();
  const auto [left, right] = foot_of(room, wall);
  const bool is_from_left = wall_index(room, place.from.wall) == neighbours_of(room, wall).left;
  const Eigen::Vector2d& corner = is_from_left ? left : right;
  const Eigen::Vector2d& far_corner = is_from_left ? right : left;
  return corner + place.from.distance_m * (far_corner - corner).normalized();
}

}  // namespace evenlit
