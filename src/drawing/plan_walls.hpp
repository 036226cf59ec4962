#pragma once

#include "evenlit/job/job.hpp"
#include "plan_view.hpp"

namespace evenlit {

/// How far walls, names and dimensions reach beyond the plan.
inline constexpr double k_outside_plan = 84;

/// Dimension lines of all walls: beside the plan where nothing of it is in the way, beside the wall otherwise.
std::vector<DrawingItem> wall_dimensions(const Shape& room, const PlanView& view, Units units);

/// The walls as a dark band outside the plan, with their names.
std::vector<DrawingItem> walls(const Shape& room, const PlanView& view);

}  // namespace evenlit
