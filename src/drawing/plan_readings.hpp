#pragma once

#include <vector>

#include "evenlit/job/job.hpp"
#include "free_space.hpp"
#include "plan_view.hpp"

namespace evenlit {

/// The job's task areas as thin dashed outlines and its points as dots, with their names where there is room for them.
std::vector<DrawingItem> reading_marks(const Job& job, const PlanView& view, FreeSpace& space);

}  // namespace evenlit
