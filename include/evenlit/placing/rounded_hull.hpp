#pragma once

#include <Eigen/Geometry>
#include <optional>

#include "evenlit/placing/line.hpp"

namespace evenlit {

/// What is within a radius of a convex figure: the sum of the figure and a disc.
class RoundedHull {
 public:
  /// @param corners of a convex polygon, counter-clockwise; two are a line, one is a point
  RoundedHull(Polygon corners, double radius_m);

  [[nodiscard]] const Polygon& corners_m() const { return corners_; }
  [[nodiscard]] double radius_m() const { return radius_; }

  /// Distance to its boundary, m: exact, negative inside.
  [[nodiscard]] double distance_m(const Eigen::Vector2d& point) const;

  /// Whether the point is farther inside than `depth_m`.
  [[nodiscard]] bool holds(const Eigen::Vector2d& point, double depth_m) const {
    return box_.contains(point) && distance_m(point) < -depth_m;
  }

  /// Whether a part of a line comes into the upright rectangle around it: quick, and never false where they meet.
  [[nodiscard]] bool may_meet(const Line& line, const Span& part) const;

  /// The part of a line that is inside; empty where it passes by.
  [[nodiscard]] std::optional<Span> span_on(const Line& line) const;

  /// The straight pieces of its boundary, moved outward by `out_m`: each begins at station 0.
  struct Side {
    Line line;
    double length_m = 0;
  };
  [[nodiscard]] std::vector<Side> sides(double out_m) const;

 private:
  [[nodiscard]] std::size_t edges() const { return corners_.size() > 1 ? corners_.size() : 0; }

  Polygon corners_;
  Polygon along_;  ///< of each edge, unit
  std::vector<double> length_;
  double radius_ = 0;
  Eigen::AlignedBox2d box_;
};

}  // namespace evenlit
