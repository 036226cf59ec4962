#pragma once

#include <optional>

#include "evenlit/drawing/drawing.hpp"
#include "evenlit/field/work_plane_light.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit {

struct PlanMapOptions {
  std::optional<double> top_lx;  ///< end of the colour scale, > 0; maps with the same top compare colour by colour

  /// What is painted, in lx and metres, where the figures' own grid is too coarse for a picture.
  std::optional<SampledField> picture_lx;
};

/// The smallest round value, in the unit that the job's trade uses, that no value of the field exceeds; in lx.
double automatic_top_lx(double maximum_lx, Units units);

/// The light on the work plane as a false-colour plan to scale: isolux lines, walls with names and dimensions, framing,
/// keep-outs and fans, cans with their numbers in the job's order, the darkest point, a scale in both units and the
/// figures that matter. Where the work plane has a margin, the light in it is painted too; a dotted line encloses what
/// the figures count.
///
/// The sheet is 1200 units wide and as tall as the room needs; no text is smaller than 18 units.
///
/// @param scene, light of the job; the grid has at least one point
Drawing plan_map(const Job& job, const Scene& scene, const WorkPlaneLight& light, const PlanMapOptions& options);

}  // namespace evenlit
