#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "evenlit/base/polygon.hpp"

namespace evenlit {

/// Corners counter-clockwise from the lower left; the first two and the last two lie on horizontal lines. Two corners
/// may coincide.
using Trapezoid = std::array<Eigen::Vector2d, 4>;

/// The area inside outlines that do not cross (simple polygons, holes among them) cut into trapezoids along horizontal
/// lines through their corners: each reaches as far up and down as the two edges that bound it allow.
std::vector<Trapezoid> trapezoids(const std::vector<Polygon>& outlines);

}  // namespace evenlit
