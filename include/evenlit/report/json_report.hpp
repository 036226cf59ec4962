#pragma once

#include <string>
#include <vector>

#include "evenlit/base/result.hpp"
#include "evenlit/base/scale_colour.hpp"
#include "evenlit/field/readings_light.hpp"
#include "evenlit/field/work_plane_light.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit {

struct JsonReportOptions {
  bool per_can =
      false;  ///< add the light that each can throws on each grid point and adds to each reading at full level
  std::vector<ScaleColour> scale = {};  ///< of a map of the light
};

/// All results as JSON (RFC 8259), UTF-8, ended by a line feed. The first keys are `"format": "evenlit light"` and
/// `"version"`; every number has its unit in its key (none for ratios); what does not exist is null; keys keep their
/// order. Calculated numbers are rounded to six significant digits, lengths to 0.1 mm.
///
/// `grid` has arrays of equal length, an entry a point: `x_m`, `y_m`, `illuminance_lx`, `direct_lx`, `error_lx`.
/// `scale` has the colour of a light on the map, as `#rrggbb`, an entry a tick.
/// `task_areas`, `points` and `surfaces` are there when the readings have any.
///
/// @param scene, light of the job; the grid has at least one point
std::string json_report(const Job& job, const Scene& scene, const WorkPlaneLight& light, const Problems& warnings,
                        const JsonReportOptions& options, const ReadingsLight& readings = {});

}  // namespace evenlit
