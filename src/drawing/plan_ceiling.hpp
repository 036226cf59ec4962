#pragma once

#include <vector>

#include "evenlit/job/job.hpp"
#include "free_space.hpp"
#include "plan_view.hpp"

namespace evenlit {

/// What is in the ceiling or hangs from it: keep-outs as hatched outlines, the clearance around each as a finely dashed
/// one; fans as the dashed circle of their blades with a hub. What of them is outside of the room is not drawn.
std::vector<DrawingItem> ceiling_marks(const Job& job, const PlanView& view);

/// Discs that together lie on what `ceiling_marks` draws, but for clearances, for labels to keep off.
std::vector<Disc> ceiling_discs(const Job& job, const PlanView& view);

/// The names of keep-outs and fans, each where there is room for it.
std::vector<DrawingItem> ceiling_names(const Job& job, const PlanView& view, FreeSpace& space);

}  // namespace evenlit
