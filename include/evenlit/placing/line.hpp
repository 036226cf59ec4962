#pragma once

#include <array>
#include <vector>

#include "evenlit/base/polygon.hpp"

namespace evenlit {

/// A straight line: a point of it and its direction, unit.
struct Line {
  Eigen::Vector2d point;
  Eigen::Vector2d along;

  [[nodiscard]] Eigen::Vector2d at(double station) const { return point + station * along; }
  [[nodiscard]] double station_of(const Eigen::Vector2d& other) const { return along.dot(other - point); }
};

/// Between two stations of a line, the first the lower.
using Span = std::array<double, 2>;

struct Circle {
  Eigen::Vector2d centre;
  double radius_m = 0;
};

/// A direction turned by 90 degrees counter-clockwise.
inline Eigen::Vector2d left_of(const Eigen::Vector2d& along) { return {-along.y(), along.x()}; }

/// Where the line meets the polygon's edges, ascending.
std::vector<double> crossings(const Polygon& polygon, const Line& line);

/// Where two circles cross: none or two points.
std::vector<Eigen::Vector2d> crossings(const Circle& a, const Circle& b);

/// The parts of the line that are in a simple polygon, ascending.
std::vector<Span> spans_within(const Polygon& polygon, const Line& line);

/// Spans that touch or overlap made one, ascending.
std::vector<Span> joined(std::vector<Span> spans);

/// What is left of spans, which ascend, outside of others.
std::vector<Span> without(const std::vector<Span>& spans, std::vector<Span> blocked);

}  // namespace evenlit
