#include "stroke_outline.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "evenlit/base/polygon.hpp"

namespace evenlit {
namespace {

constexpr double k_arc_error = 0.05;  // a chord strays no farther from the round join

Polyline without_repeats(const Polyline& line, bool closed) {
  Polyline points;
  for (const Eigen::Vector2d& point : line) {
    if (points.empty() || point != points.back()) points.push_back(point);
  }
  while (closed && points.size() > 1 && points.back() == points.front()) points.pop_back();
  return points;
}

Polyline reversed(Polyline line) {
  std::reverse(line.begin(), line.end());
  return line;
}

/// The side of a pen that is drawn along a line, toward its right as seen (x right, y down).
class PenSide {
 public:
  explicit PenSide(double radius) : radius_(radius) {}

  Polyline along(const Polyline& line, bool closed) && {
    const std::size_t count = line.size();
    if (!closed) side_.push_back(line[0] + offset(line[1] - line[0]));
    for (std::size_t i = closed ? 0 : 1; i < (closed ? count : count - 1); ++i) {
      bend(line[i], line[i] - line[(i + count - 1) % count], line[(i + 1) % count] - line[i]);
    }
    if (!closed) side_.push_back(line[count - 1] + offset(line[count - 1] - line[count - 2]));
    return std::move(side_);
  }

 private:
  Eigen::Vector2d offset(const Eigen::Vector2d& direction) const {
    return radius_ * Eigen::Vector2d(-direction.y(), direction.x()).normalized();
  }

  // On the outer side of a bend the pen turns. On the inner side it goes by the line itself: so it covers the beginning
  // and the end of the bend twice, where cutting the corner could leave out what it covers once.
  void bend(const Eigen::Vector2d& at, const Eigen::Vector2d& in, const Eigen::Vector2d& out) {
    const double turn = std::atan2(in.x() * out.y() - in.y() * out.x(), in.dot(out));
    const Eigen::Vector2d begin = offset(in);
    const Eigen::Vector2d end = offset(out);
    if (std::abs(turn) * radius_ < k_arc_error) {
      side_.push_back(at + end);
    } else if (turn > 0) {
      side_.insert(side_.end(), {at + begin, at, at + end});
    } else {
      const double step = 2 * std::acos(std::max(0.0, 1 - k_arc_error / std::max(radius_, 2 * k_arc_error)));
      const int steps = std::max(1, static_cast<int>(std::ceil(-turn / step)));
      for (int i = 0; i < steps; ++i) side_.push_back(at + Eigen::Rotation2Dd(turn * i / steps) * begin);
      side_.push_back(at + end);
    }
  }

  double radius_;
  Polyline side_;
};

std::vector<Polyline> outlines_of(const Polyline& line, bool closed, double radius) {
  Polyline right = PenSide(radius).along(line, closed);
  Polyline left = PenSide(radius).along(reversed(line), closed);
  if (closed) return {std::move(right), std::move(left)};
  right.insert(right.end(), left.begin(), left.end());
  return {std::move(right)};
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
  Polyline line = without_repeats(stroke.points, stroke.closed);
  if (line.size() < 2) return {};
  if (stroke.dash.empty()) return outlines_of(line, stroke.closed, stroke.width / 2);
  if (stroke.closed) line.push_back(line.front());
  std::vector<Polyline> outlines;
  for (const Polyline& dash : dashes(line, stroke.dash)) {
    for (Polyline& outline : outlines_of(without_repeats(dash, false), false, stroke.width / 2))
      outlines.push_back(std::move(outline));
  }
  return outlines;
}

std::vector<Polyline> grown(std::vector<Polyline> outlines, double distance) {
  double area = 0;
  for (const Polyline& outline : outlines) area += signed_area(outline);
  for (Polyline& outline : outlines) {
    outline = without_repeats(outline, true);
    if (outline.size() < 2) continue;
    if (area > 0) outline = reversed(std::move(outline));
    outline = PenSide(distance).along(outline, true);
  }
  return outlines;
}

}  // namespace evenlit
