#pragma once

#include "evenlit/base/polygon.hpp"

namespace evenlit {

/// The smallest convex polygon around points, counter-clockwise, without corners on its edges; two corners where all
/// lie on a line, one where all are the same.
Polygon convex_hull(Polygon points);

/// All sums of a point of one convex figure and a point of the other.
Polygon convex_sum(const Polygon& a, const Polygon& b);

/// Convex polygons that together cover a simple, counter-clockwise one: itself where it is convex, else triangles.
std::vector<Polygon> convex_pieces(const Polygon& polygon);

}  // namespace evenlit
