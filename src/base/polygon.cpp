#include "evenlit/base/polygon.hpp"

#include <Eigen/Geometry>
#include <algorithm>

namespace evenlit {
namespace {

using Point = Eigen::Vector2d;

/// Points nearer than this are one: far below what a tape reads, far above rounding in a plan of up to 1 km.
constexpr double k_touch_m = 1e-9;

double cross(const Point& a, const Point& b) { return a.x() * b.y() - a.y() * b.x(); }

struct Edge {
  Point start;
  Point end;
};

Edge edge(const Polygon& polygon, std::size_t i) { return {polygon[i], polygon[(i + 1) % polygon.size()]}; }

/// The point of an edge that is nearest to another point.
Point nearest_on(const Edge& edge, const Point& point) {
  const Point along = edge.end - edge.start;
  const double length2 = along.squaredNorm();
  const double t = length2 > 0 ? std::clamp((point - edge.start).dot(along) / length2, 0.0, 1.0) : 0.0;
  return edge.start + t * along;
}

double distance(const Point& point, const Edge& edge) { return (point - nearest_on(edge, point)).norm(); }

/// Whether the ends of `a` lie strictly on different sides of the line through `b`.
bool straddles(const Edge& a, const Edge& b) {
  const Point along = b.end - b.start;
  return cross(along, a.start - b.start) * cross(along, a.end - b.start) < 0;
}

bool touch(const Edge& a, const Edge& b) {
  if (straddles(a, b) && straddles(b, a)) return true;
  return distance(a.start, b) <= k_touch_m || distance(a.end, b) <= k_touch_m || distance(b.start, a) <= k_touch_m ||
         distance(b.end, a) <= k_touch_m;
}

/// Whether `second`, which starts where `first` ends, runs back along it (or one of the two has no length).
bool fold_back(const Edge& first, const Edge& second) {
  return distance(second.end, first) <= k_touch_m || distance(first.start, second) <= k_touch_m;
}

}  // namespace

double signed_area(const Polygon& polygon) {
  double twice_area = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const auto [start, end] = edge(polygon, i);
    twice_area += cross(start - polygon.front(), end - polygon.front());
  }
  return twice_area / 2;
}

Eigen::Vector3d vector_area(std::span<const Eigen::Vector3d> corners) {
  Eigen::Vector3d doubled = Eigen::Vector3d::Zero();
  for (std::size_t i = 0; i < corners.size(); ++i) {
    doubled += (corners[i] - corners.front()).cross(corners[(i + 1) % corners.size()] - corners.front());
  }
  return doubled / 2;
}

Eigen::AlignedBox2d bounds_of(const Polygon& polygon) {
  Eigen::AlignedBox2d bounds;
  for (const Point& corner : polygon) bounds.extend(corner);
  return bounds;
}

double perimeter(const Polygon& polygon) {
  double length = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const auto [start, end] = edge(polygon, i);
    length += (end - start).norm();
  }
  return length;
}

std::optional<std::array<int, 2>> crossing_edges(const Polygon& polygon) {
  const std::size_t count = polygon.size();
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t j = i + 1; j < count; ++j) {
      const Edge a = edge(polygon, i);
      const Edge b = edge(polygon, j);
      const bool b_follows_a = j == i + 1;
      const bool a_follows_b = i == 0 && j == count - 1;
      const bool wrong = b_follows_a || a_follows_b
                             ? (b_follows_a && fold_back(a, b)) || (a_follows_b && fold_back(b, a))
                             : touch(a, b);
      if (wrong) return std::array{static_cast<int>(i), static_cast<int>(j)};
    }
  }
  return std::nullopt;
}

bool is_inside(const Polygon& polygon, const Point& point) {
  if (distance_to_outline(polygon, point) <= k_touch_m) return true;
  // A ray toward +x meets the outline an odd number of times.
  bool inside = false;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const auto [start, end] = edge(polygon, i);
    if ((start.y() > point.y()) == (end.y() > point.y())) continue;
    const double x = start.x() + (point.y() - start.y()) / (end.y() - start.y()) * (end.x() - start.x());
    if (point.x() < x) inside = !inside;
  }
  return inside;
}

Polygon part_within(const Polygon& convex, const Eigen::Vector2d& normal, double limit) {
  const double slack = k_touch_m * normal.norm();
  Polygon kept;
  for (std::size_t i = 0; i < convex.size(); ++i) {
    const auto [a, b] = edge(convex, i);
    const double beyond_a = normal.dot(a) - limit;
    const double beyond_b = normal.dot(b) - limit;
    if (beyond_a <= slack) kept.push_back(a);
    if (std::min(beyond_a, beyond_b) < -slack && std::max(beyond_a, beyond_b) > slack) {
      kept.push_back(a + beyond_a / (beyond_a - beyond_b) * (b - a));
    }
  }
  return kept.size() < 3 ? Polygon{} : kept;
}

Point nearest_of(const Polygon& polygon, const Point& point) {
  if (is_inside(polygon, point)) return point;
  Point nearest = polygon.front();
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point foot = nearest_on(edge(polygon, i), point);
    if ((point - foot).norm() < (point - nearest).norm()) nearest = foot;
  }
  return nearest;
}

double distance_to_outline(const Polygon& polygon, const Point& point) {
  double least = (point - polygon.front()).norm();
  for (std::size_t i = 0; i < polygon.size(); ++i) least = std::min(least, distance(point, edge(polygon, i)));
  return least;
}

}  // namespace evenlit
