#pragma once

#include "evenlit/drawing/drawing.hpp"
#include "evenlit/field/section_light.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit {

/// A section through a can to scale: floor, walls, ceiling, boxes that it cuts, the cans in its plane, the one can's
/// beam and field, the work plane; below it, on the same axis, the light along the work plane, of all cans and of this
/// one alone, in both units.
///
/// The sheet is 1200 units wide and as tall as the room needs; no text is smaller than 18 units.
///
/// @param scene, light of the job
Drawing section_drawing(const Job& job, const Scene& scene, const SectionLight& light);

}  // namespace evenlit
