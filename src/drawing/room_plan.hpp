#pragma once

#include <optional>
#include <vector>

#include "evenlit/job/job.hpp"
#include "evenlit/room/box.hpp"
#include "free_space.hpp"
#include "isolux_lines.hpp"
#include "light_scale.hpp"
#include "plan_view.hpp"

namespace evenlit {

/// A room where it lies on a sheet.
struct RoomPlan {
  const Job& job;
  const std::vector<Box>& boxes;  ///< of its scene
  PlanView view;
};

/// Where labels may be: within the walls, off boxes and what is in the ceiling.
FreeSpace free_space(const RoomPlan& plan);

/// What is drawn on a room.
struct RoomLayers {
  FalseColour colours;             ///< clipped to the plan by `room_picture`
  std::vector<DrawingItem> lines;  ///< on the colours and the framing
  std::vector<DrawingItem> marks;  ///< on the boxes and what is in the ceiling
};

/// The room from above as every map shows it: colours, framing, the grid's margin, boxes, what is in the ceiling,
/// walls.
std::vector<DrawingItem> room_picture(const RoomPlan& plan, RoomLayers layers);

/// A field close enough to be painted.
SampledField close_field(const SampledField& points_m);

/// Round levels in the job's unit, and its target, the heavier line, first, so that its label finds the best place.
std::vector<Isolux> isolux_levels(const Job& job, double top_lx);

/// The levels of a scale of light alone, without a target.
std::vector<Isolux> isolux_levels(const LightScale& scale);

}  // namespace evenlit
