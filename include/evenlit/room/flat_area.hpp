#pragma once

#include <vector>

#include "evenlit/base/polygon.hpp"

// Areas in a plane, by Boost.Polygon: its integer arithmetic copes with corners that touch edges and edges that run
// along each other, which boxes that touch walls and each other are full of. Coordinates are rounded to some 1e-9 of
// the figures' size.

namespace evenlit {

/// Outlines of an area, each counter-clockwise and followed by its holes, which run the other way round.
using FlatArea = std::vector<Polygon>;

/// What a convex figure covers of a simple one; pieces too small to matter (1e-8 m2) are left out. Either way round.
FlatArea intersection(const Polygon& simple, const Polygon& convex);

/// An area without convex figures, which may overlap and run either way round; pieces too small to matter are left out.
FlatArea difference(const FlatArea& area, const std::vector<Polygon>& convex);

}  // namespace evenlit
