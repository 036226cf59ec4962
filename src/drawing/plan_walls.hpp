#pragma once

#include "evenlit/job/job.hpp"
#include "plan_view.hpp"

namespace evenlit {

/// How far walls, names and dimensions reach beyond the plan.
inline constexpr double k_outside_plan = 84;

/// Dimension lines of all walls: beside the plan where nothing of it is in the way, beside the wall otherwise.
std::vector<DrawingItem> wall_dimensions(const Shape& room, const PlanView& view, Units units);

/// The walls as a dark band outside the plan.
DrawingItem wall_band(const Shape& room, const PlanView& view);

/// The walls' names beside the band.
std::vector<DrawingItem> wall_names(const Shape& room, const PlanView& view);

}  // namespace evenlit
