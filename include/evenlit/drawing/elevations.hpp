#pragma once

#include <optional>
#include <vector>

#include "evenlit/drawing/drawing.hpp"
#include "evenlit/field/wall_light.hpp"
#include "evenlit/job/job.hpp"

namespace evenlit {

/// The light on the walls as false-colour elevations to one scale, seen from inside the room and side by side as one
/// turns round to the right, in as many rows as they need: isolux lines, doors and windows, what stands against a wall,
/// the cans that are nearest before it, lengths, each wall's average, one scale of colours for all: by the light, or by
/// its square root where the brightest spot has more than three times the average of all walls.
///
/// The sheet is 1200 units wide and as tall as the walls need; no text is smaller than 18 units.
///
/// @param light  of all walls of the job
/// @param top_lx end of the colour scale, > 0
Drawing elevations(const Job& job, const std::vector<WallLight>& light, std::optional<double> top_lx);

}  // namespace evenlit
