#include "convex.hpp"

#include <algorithm>

namespace evenlit {
namespace {

using Eigen::Vector2d;

/// Twice the area of a triangle; positive when it runs counter-clockwise.
double turn(const Vector2d& a, const Vector2d& b, const Vector2d& c) {
  return (b - a).x() * (c - a).y() - (b - a).y() * (c - a).x();
}

bool is_convex(const Polygon& polygon) {
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    if (turn(polygon[i], polygon[(i + 1) % polygon.size()], polygon[(i + 2) % polygon.size()]) < 0) return false;
  }
  return true;
}

/// Whether the corner can be cut off: it is no dent, and no other corner is in its triangle.
bool is_ear(const Polygon& polygon, std::size_t corner) {
  const std::size_t count = polygon.size();
  const std::size_t before = (corner + count - 1) % count;
  const std::size_t after = (corner + 1) % count;
  const Vector2d& a = polygon[before];
  const Vector2d& b = polygon[corner];
  const Vector2d& c = polygon[after];
  if (turn(a, b, c) <= 0) return false;
  for (std::size_t i = 0; i < count; ++i) {
    if (i == before || i == corner || i == after) continue;
    const Vector2d& p = polygon[i];
    if (turn(a, b, p) >= 0 && turn(b, c, p) >= 0 && turn(c, a, p) >= 0) return false;
  }
  return true;
}

}  // namespace

Polygon convex_hull(Polygon points) {
  std::ranges::sort(
      points, [](const Vector2d& a, const Vector2d& b) { return a.x() < b.x() || (a.x() == b.x() && a.y() < b.y()); });
  points.erase(std::unique(points.begin(), points.end()), points.end());
  if (points.size() < 3) return points;
  Polygon hull;
  const auto add = [&](const Vector2d& point, std::size_t least) {
    while (hull.size() > least && turn(hull[hull.size() - 2], hull.back(), point) <= 0) hull.pop_back();
    hull.push_back(point);
  };
  for (const Vector2d& point : points) add(point, 1);
  const std::size_t lower = hull.size();
  for (std::size_t i = points.size() - 1; i-- > 0;) add(points[i], lower);
  hull.pop_back();
  return hull;
}

Polygon convex_sum(const Polygon& a, const Polygon& b) {
  Polygon sums;
  for (const Vector2d& p : a) {
    for (const Vector2d& q : b) sums.emplace_back(p + q);
  }
  return convex_hull(std::move(sums));
}

std::vector<Polygon> convex_pieces(const Polygon& polygon) {
  std::vector<Polygon> pieces;
  Polygon rest = polygon;
  while (!is_convex(rest)) {
    std::size_t ear = 0;
    while (ear < rest.size() && !is_ear(rest, ear)) ++ear;
    if (ear == rest.size()) break;  // only where rounding has flattened what is left
    const std::size_t count = rest.size();
    pieces.push_back({rest[(ear + count - 1) % count], rest[ear], rest[(ear + 1) % count]});
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(ear));
  }
  pieces.push_back(convex_hull(std::move(rest)));
  return pieces;
}

}  // namespace evenlit
