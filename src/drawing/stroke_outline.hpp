#pragma once

#include <vector>

#include "evenlit/drawing/drawing.hpp"

namespace evenlit {

/// The area of a stroke as convex outlines of one orientation that may overlap: a rectangle a segment, a fan a join.
std::vector<Polyline> stroke_outlines(const Stroke& stroke);

}  // namespace evenlit
