#include "evenlit/placing/rounded_hull.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace evenlit {
namespace {

using Eigen::Vector2d;

/// Of an edge that runs counter-clockwise.
Vector2d outward(const Vector2d& along) { return -left_of(along); }

}  // namespace

RoundedHull::RoundedHull(Polygon corners, double radius_m) : corners_(std::move(corners)), radius_(radius_m) {
  for (std::size_t i = 0; i < edges(); ++i) {
    const Vector2d edge = corners_[(i + 1) % corners_.size()] - corners_[i];
    length_.push_back(edge.norm());
    along_.emplace_back(edge / length_.back());
  }
  for (const Vector2d& corner : corners_) box_.extend(corner);
  box_.min().array() -= radius_;
  box_.max().array() += radius_;
}

double RoundedHull::distance_m(const Vector2d& point) const {
  // Inside of a convex polygon the nearest edge is that whose line is nearest.
  double farthest_out = -std::numeric_limits<double>::infinity();
  double nearest2 = (point - corners_.front()).squaredNorm();
  for (std::size_t i = 0; i < edges(); ++i) {
    const Vector2d from = point - corners_[i];
    const double out = outward(along_[i]).dot(from);
    const double beyond = std::clamp(along_[i].dot(from), 0.0, length_[i]);
    farthest_out = std::max(farthest_out, out);
    nearest2 = std::min(nearest2, (from - beyond * along_[i]).squaredNorm());
  }
  const bool is_in_hull = edges() > 2 && farthest_out <= 0;
  return (is_in_hull ? farthest_out : std::sqrt(nearest2)) - radius_;
}

bool RoundedHull::may_meet(const Line& line, const Span& part) const {
  double from = part[0];
  double to = part[1];
  for (int axis = 0; axis < 2; ++axis) {
    const double before = box_.min()[axis] - line.point[axis];
    const double after = box_.max()[axis] - line.point[axis];
    const double speed = line.along[axis];
    if (speed == 0) {
      if (before > 0 || after < 0) return false;
      continue;
    }
    from = std::max(from, std::min(before / speed, after / speed));
    to = std::min(to, std::max(before / speed, after / speed));
  }
  return from <= to;
}

std::optional<Span> RoundedHull::span_on(const Line& line) const {
  // The boundary is made of the moved edges and of arcs about the corners. Where a line meets one of those, or the rest
  // of an arc's circle, is a point of this convex figure; where it enters and leaves is among them.
  Span span{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
  const auto take = [&](double station) {
    span[0] = std::min(span[0], station);
    span[1] = std::max(span[1], station);
  };
  constexpr double k_parallel_sine = 1e-12;
  constexpr double k_rounding_m = 1e-9;
  for (std::size_t i = 0; i < edges(); ++i) {
    const Vector2d normal = outward(along_[i]);
    const double sine = normal.dot(line.along);
    if (std::abs(sine) < k_parallel_sine) continue;
    const double station = (radius_ - normal.dot(line.point - corners_[i])) / sine;
    const double on_edge = along_[i].dot(line.at(station) - corners_[i]);
    if (on_edge >= -k_rounding_m && on_edge <= length_[i] + k_rounding_m) take(station);
  }
  if (radius_ > 0) {
    for (const Vector2d& corner : corners_) {
      const double station = line.station_of(corner);
      const double half2 = radius_ * radius_ - (corner - line.at(station)).squaredNorm();
      if (half2 <= 0) continue;
      take(station - std::sqrt(half2));
      take(station + std::sqrt(half2));
    }
  }
  return span[0] < span[1] ? std::optional(span) : std::nullopt;
}

std::vector<RoundedHull::Side> RoundedHull::sides(double out_m) const {
  std::vector<Side> sides;
  for (std::size_t i = 0; i < edges(); ++i) {
    sides.push_back({{corners_[i] + (radius_ + out_m) * outward(along_[i]), along_[i]}, length_[i]});
  }
  return sides;
}

}  // namespace evenlit
