#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "evenlit/base/polygon.hpp"

namespace evenlit {

/// Corners counter-clockwise from the lower left; the first two and the last two lie on horizontal lines. Two corners
/// may coincide.
using Trapezoid = std::array<Eigen::Vector2d, 4>;

/// A simple polygon (counter-clockwise) cut into trapezoids along horizontal lines through its corners: each reaches
/// as far up and down as the two edges that bound it allow.
std::vector<Trapezoid> trapezoids(const Polygon& polygon);

}  // namespace evenlit
