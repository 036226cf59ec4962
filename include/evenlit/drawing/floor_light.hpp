#pragma once

#include <vector>

#include "evenlit/base/scale_colour.hpp"
#include "evenlit/drawing/plan_map.hpp"
#include "evenlit/drawing/png.hpp"

namespace evenlit {

// A map's colours without the map, to be laid under a drawing of the plan.

/// The end of a map's colour scale, lx: as asked for, or the smallest round value that nothing painted exceeds.
double map_top_lx(const Job& job, const WorkPlaneLight& light, const PlanMapOptions& options);

/// The colours of a map at the ticks of its scale in the job's unit, ascending from 0 to the end.
std::vector<ScaleColour> map_scale(const Job& job, double top_lx);

/// The light on the work plane in a map's colours, nothing else: the upright rectangle around the plan, north up,
/// transparent outside of the walls.
///
/// @param light of the job; the grid has at least one point
/// @param width_px 1...k_widest_image_px; the height follows the plan's proportions, rounded up
MaskedImage floor_light(const Job& job, const WorkPlaneLight& light, const PlanMapOptions& options, int width_px);

}  // namespace evenlit
