#pragma once

#include <Eigen/Core>
#include <Eigen/Geometry>
#include <array>
#include <optional>
#include <span>
#include <vector>

namespace evenlit {

/// A plane polygon: corners in order, not repeated at the end. In a simple polygon no two edges touch but at a shared
/// corner. "Left of the edges", that is counter-clockwise, is inside.
using Polygon = std::vector<Eigen::Vector2d>;

/// Area enclosed, m2; negative when the corners run clockwise.
double signed_area(const Polygon& polygon);

/// Of a plane polygon in space: as long as its area is large (m2), square to it, toward where its corners run
/// counter-clockwise (Newell's method). Of one that is not quite plane: that of its projection on the mean plane.
Eigen::Vector3d vector_area(std::span<const Eigen::Vector3d> corners);

double perimeter(const Polygon& polygon);

/// The smallest upright rectangle around the corners; empty where there are none.
Eigen::AlignedBox2d bounds_of(const Polygon& polygon);

/// Indices of two edges (edge i runs from corner i to corner i+1) that cross or touch where they should not; empty for
/// a simple polygon.
std::optional<std::array<int, 2>> crossing_edges(const Polygon& polygon);

/// Whether the point is inside or on the outline of a simple polygon.
bool is_inside(const Polygon& polygon, const Eigen::Vector2d& point);

/// The part of a convex polygon where normal . x <= limit; no corners where nothing is left. What is nearer to that
/// line than 1e-9 m is on it.
Polygon part_within(const Polygon& convex, const Eigen::Vector2d& normal, double limit);

/// The point itself where it is inside or on the outline, else the nearest of the outline.
Eigen::Vector2d nearest_of(const Polygon& polygon, const Eigen::Vector2d& point);

/// Distance from the point to the nearest edge, m.
double distance_to_outline(const Polygon& polygon, const Eigen::Vector2d& point);

}  // namespace evenlit
