#pragma once

#include <vector>

#include "evenlit/placing/layouts.hpp"

namespace evenlit {

/// Cans over the edges of a box such as an island or a table, or so far outside of them: over its two long sides, half
/// of the count each, and over all four, as many over opposite ones, shared so that the spacings of long and short
/// sides are most alike. On a side they are evenly spaced with half of the spacing at its ends. Of a square the long
/// sides are the southern and the northern one.
///
/// @param box_m a rectangle's corners, counter-clockwise, turned anyhow
/// @param count of an odd one there is none
/// @return those of which every place is in the plan
std::vector<Layout> around_layouts(const Polygon& box_m, const Polygon& plan_m, int count, double outside_m);

}  // namespace evenlit
