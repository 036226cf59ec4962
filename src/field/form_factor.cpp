#include "evenlit/field/form_factor.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "gauss.hpp"

namespace evenlit {
namespace {

using Eigen::Vector3d;

constexpr int k_most_corners = 64;

/// A polygon in place, so that cutting it allocates nothing.
struct CornerList {
  std::array<Vector3d, k_most_corners + 1> corners;
  int count = 0;
  void add(const Vector3d& corner) { corners[count++] = corner; }
};

/// The part of a convex polygon (seen from the origin) that lies above the horizon normal . x >= 0.
CornerList above_horizon(std::span<const Vector3d> polygon, const Vector3d& point, const Vector3d& normal) {
  CornerList kept;
  Vector3d from = polygon.back() - point;
  double from_height = normal.dot(from);
  for (const auto& corner : polygon) {
    const Vector3d to = corner - point;
    const double to_height = normal.dot(to);
    if ((from_height < 0) != (to_height < 0)) {
      kept.add(from + (to - from) * (from_height / (from_height - to_height)));
    }
    if (to_height >= 0) kept.add(to);
    from = to;
    from_height = to_height;
  }
  return kept;
}

/// Angle that an edge subtends times the component of its plane's unit normal along `normal`.
double edge_term(const Vector3d& from, const Vector3d& to, const Vector3d& normal) {
  const Vector3d across = from.cross(to);
  const double sine = across.norm();
  if (sine == 0) return 0;
  return std::atan2(sine, from.dot(to)) * normal.dot(across) / sine;
}

/// Antiderivatives of ln sqrt(x^2 + h^2): once and twice with respect to x.
double log_integral(double x, double h) {
  const double r2 = x * x + h * h;
  return r2 == 0 ? 0 : x * std::log(r2) / 2 - x + h * std::atan2(x, h);
}

double log_double_integral(double x, double h) {
  const double r2 = x * x + h * h;
  return r2 == 0 ? 0 : (x * x - h * h) * std::log(r2) / 4 - 0.75 * x * x + x * h * std::atan2(x, h);
}

/// Integral of ln r over two parallel edges of lengths a and b: b runs along a's direction (or against it), starts at
/// `along` on a's line and `apart` from it.
double parallel_edges(double a, double b_start, double b_end, double apart) {
  return log_double_integral(a - b_start, apart) - log_double_integral(-b_start, apart) -
         log_double_integral(a - b_end, apart) + log_double_integral(-b_end, apart);
}

struct Edge {
  Vector3d start;
  Vector3d direction;
  double length;
};

Edge edge_between(const Vector3d& from, const Vector3d& to) {
  const Vector3d along = to - from;
  const double length = along.norm();
  return {from, length > 0 ? Vector3d(along / length) : Vector3d::Zero(), length};
}

/// Points of the unit interval crowded towards both ends: what there is like x ln x, or a kink, becomes smooth.
const GaussRule& crowded_rule() {
  static const GaussRule k_rule = [] {
    constexpr int k_points = 12;
    GaussRule rule = gauss_rule(k_points);
    for (int k = 0; k < k_points; ++k) {
      const double v = rule.nodes[k];
      rule.nodes[k] = v * v * v * (10 - 15 * v + 6 * v * v);
      rule.weights[k] *= 30 * v * v * (1 - v) * (1 - v);
    }
    return rule;
  }();
  return k_rule;
}

/// Integral of ln r from a point of a's line, so far along it, over b.
double log_over_edge(const Edge& a, const Edge& b, double at) {
  const Vector3d from_b = a.start + at * a.direction - b.start;
  const double along = from_b.dot(b.direction);
  const double apart = (from_b - along * b.direction).norm();
  return log_integral(b.length - along, apart) - log_integral(-along, apart);
}

/// Integral of ln r over b and what of a is from so far along it to so far.
double log_over_edges(const Edge& a, const Edge& b, double from, double to, const GaussRule& rule) {
  double sum = 0;
  for (std::size_t k = 0; k < rule.nodes.size(); ++k) {
    sum += rule.weights[k] * log_over_edge(a, b, from + (to - from) * rule.nodes[k]);
  }
  return (to - from) * sum;
}

/// Integral of ln r over two edges that are not parallel, which do not cross: it is smooth along a but next to b's
/// ends.
double slanting_edges(const Edge& a, const Edge& b) {
  constexpr int k_smooth_points = 8;
  const Vector3d to_start = b.start - a.start;
  std::array<double, 4> ends{0, 0, 0, a.length};
  bool is_smooth = true;
  for (int i = 0; i < 2; ++i) {
    const Vector3d to = to_start + i * b.length * b.direction;
    ends[i + 1] = std::clamp(to.dot(a.direction), 0.0, a.length);
    is_smooth = is_smooth && (to - ends[i + 1] * a.direction).norm() > a.length / 2;
  }
  if (is_smooth) return log_over_edges(a, b, 0, a.length, gauss_rule(k_smooth_points));
  std::ranges::sort(ends);
  double sum = 0;
  for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
    if (ends[i] < ends[i + 1]) sum += log_over_edges(a, b, ends[i], ends[i + 1], crowded_rule());
  }
  return sum;
}

/// Integral of ln r over both edges times the cosine between them.
double contour_term(const Edge& a, const Edge& b) {
  const double cosine = a.direction.dot(b.direction);
  constexpr double k_square = 1e-12;
  if (std::abs(cosine) < k_square) return 0;

  constexpr double k_parallel = 1e-8;
  if (a.direction.cross(b.direction).squaredNorm() < k_parallel * k_parallel) {
    const Vector3d offset = b.start - a.start;
    const double start = offset.dot(a.direction);
    const double apart = (offset - start * a.direction).norm();
    const double end = start + cosine * b.length;
    return parallel_edges(a.length, start, end, apart);  // b_end before b_start carries the sign of the cosine
  }
  return cosine * (a.length < b.length ? slanting_edges(a, b) : slanting_edges(b, a));
}

}  // namespace

double configuration_factor(const Vector3d& point, const Vector3d& normal, std::span<const Vector3d> polygon) {
  const CornerList seen = above_horizon(polygon, point, normal);
  double sum = 0;
  for (int i = 0; i < seen.count; ++i) {
    sum += edge_term(seen.corners[i], seen.corners[i + 1 < seen.count ? i + 1 : 0], normal);
  }
  // Corners that run counter-clockwise as the front is seen turn clockwise about the direction of view.
  return std::max(0.0, -sum / (2 * std::numbers::pi));
}

double exchange_area(std::span<const Vector3d> first, std::span<const Vector3d> second) {
  double sum = 0;
  for (std::size_t i = 0; i < first.size(); ++i) {
    const Edge a = edge_between(first[i], first[(i + 1) % first.size()]);
    for (std::size_t j = 0; j < second.size(); ++j) {
      sum += contour_term(a, edge_between(second[j], second[(j + 1) % second.size()]));
    }
  }
  return std::max(0.0, sum / (2 * std::numbers::pi));
}

}  // namespace evenlit
