#include "stroke_outline.hpp"

#include <algorithm>
#include <cmath>

namespace evenlit {
namespace {

constexpr double k_arc_error = 0.05;  // a fan's chord strays no farther from the round join

struct Pen {
  double radius;
  std::vector<Polyline>& outlines;

  void segment(const Eigen::Vector2d& from, const Eigen::Vector2d& to) {
    const Eigen::Vector2d side = radius * Eigen::Vector2d(from.y() - to.y(), to.x() - from.x()).normalized();
    outlines.push_back({from + side, from - side, to - side, to + side});
  }

  // The wedge on the outer side of a bend, from the end of one rectangle to the beginning of the next.
  void join(const Eigen::Vector2d& before, const Eigen::Vector2d& at, const Eigen::Vector2d& after) {
    const Eigen::Vector2d in = at - before;
    const Eigen::Vector2d out = after - at;
    const double cross = in.x() * out.y() - in.y() * out.x();
    const double turn = std::atan2(cross, in.dot(out));
    if (std::abs(turn) * radius < k_arc_error) return;
    const double outer = turn > 0 ? -1 : 1;
    const double start = std::atan2(in.y(), in.x()) + outer * std::acos(0.0);
    const double step = 2 * std::acos(std::max(0.0, 1 - k_arc_error / std::max(radius, 2 * k_arc_error)));
    const int steps = std::max(1, static_cast<int>(std::ceil(std::abs(turn) / step)));
    Polyline fan{at};
    for (int i = 0; i <= steps; ++i) {
      const double angle = start + turn * i / steps;
      fan.emplace_back(at + radius * Eigen::Vector2d(std::cos(angle), std::sin(angle)));
    }
    if (turn < 0) std::reverse(fan.begin(), fan.end());
    outlines.push_back(std::move(fan));
  }
};

Polyline without_repeats(const Stroke& stroke) {
  Polyline points;
  for (const Eigen::Vector2d& point : stroke.points) {
    if (points.empty() || point != points.back()) points.push_back(point);
  }
  if (stroke.closed && points.size() > 1) {
    while (points.size() > 1 && points.back() == points.front()) points.pop_back();
    points.push_back(points.front());
  }
  return points;
}

// The painted pieces of a dashed line.
std::vector<Polyline> dashes(const Polyline& points, const std::vector<double>& dash) {
  std::vector<Polyline> pieces;
  std::size_t part = 0;
  double left = dash[0];
  bool painted = true;
  Polyline piece{points.front()};
  for (std::size_t i = 1; i < points.size(); ++i) {
    Eigen::Vector2d from = points[i - 1];
    double length = (points[i] - from).norm();
    for (; length > left; length -= left, part = (part + 1) % dash.size(), left = dash[part], painted = !painted) {
      from += left / length * (points[i] - from);
      piece.push_back(from);
      if (painted) pieces.push_back(piece);
      piece = {from};
    }
    left -= length;
    piece.push_back(points[i]);
  }
  if (painted && piece.size() > 1) pieces.push_back(piece);
  return pieces;
}

}  // namespace

std::vector<Polyline> stroke_outlines(const Stroke& stroke) {
  const Polyline points = without_repeats(stroke);
  std::vector<Polyline> outlines;
  if (points.size() < 2) return outlines;
  Pen pen{stroke.width / 2, outlines};
  for (const Polyline& line : stroke.dash.empty() ? std::vector<Polyline>(1, points) : dashes(points, stroke.dash)) {
    for (std::size_t i = 1; i < line.size(); ++i) {
      pen.segment(line[i - 1], line[i]);
      if (i + 1 < line.size()) pen.join(line[i - 1], line[i], line[i + 1]);
    }
  }
  if (stroke.closed && stroke.dash.empty()) pen.join(points[points.size() - 2], points.front(), points[1]);
  return outlines;
}

}  // namespace evenlit
