#pragma once

#include <vector>

#include "evenlit/drawing/drawing.hpp"
#include "evenlit/room/scene.hpp"
#include "evenlit/wiring/wired_job.hpp"

namespace evenlit {

/// The plan with its cables to scale: each circuit in an ink and a dash of its own from its switch from can to can, the
/// feed in black, cables with their number and length as in the list where there is room, holes through framing as
/// dots, switch boxes as squares on their walls, framing, keep-outs, walls with names and dimensions; cable, holes and
/// voltage below.
///
/// The sheet is 1200 units wide and as tall as the room needs; no text is smaller than 18 units.
///
/// @param scene of the job
Drawing wiring_sheet(const WiredJob& wired, const Scene& scene);

}  // namespace evenlit
