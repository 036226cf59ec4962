#pragma once

#include <vector>

#include "evenlit/drawing/drawing.hpp"

namespace evenlit {

// Outlines that may cross themselves and one another, but wind the same way round all that they cover, so that they
// unite.

/// The area of a stroke.
std::vector<Polyline> stroke_outlines(const Stroke& stroke);

/// Areas grown by a distance, with round corners.
std::vector<Polyline> grown(std::vector<Polyline> outlines, double distance);

}  // namespace evenlit
