#pragma once

#include <optional>
#include <span>

#include "evenlit/drawing/drawing.hpp"
#include "evenlit/drawing/panel_view.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/placing/compared_job.hpp"
#include "evenlit/placing/comparison.hpp"
#include "evenlit/room/box.hpp"
#include "evenlit/room/grid.hpp"

namespace evenlit {

/// A sheet has room for so many layouts.
inline constexpr int k_most_panels = 24;

/// Layouts side by side: for each the plan with its light in false colour, isolux lines, framing, cans, those that do
/// not fit crossed aslant, and its figures; one colour scale and one drawing scale for all. The colours
/// end at the brightest point of all, or at twice the target where less will do for half of the layouts. Layouts have
/// the numbers of their rows in the comparison, from 1; those with the fewest cans that reach the target have theirs on
/// a dark ground. Of more than `k_most_panels` layouts the first are shown, and the heading says so.
///
/// Each panel is at least 480 units wide and no text smaller than 18 units; the more panels, the larger the sheet, of
/// proportions near 4 : 3.
///
/// @param boxes      of the job's scene
/// @param grid       of the job's work plane
/// @param comparison of the job on that grid
/// @param views of the room in each layout, to stand below its plan; none, or one a row
Drawing layout_sheet(const Job& job, const std::vector<Box>& boxes, const Grid& grid, const Comparison& comparison,
                     std::span<const PanelView> views = {});

/// The same of whole jobs, each on its own plan, all to one scale, the largest filling its panel. Units are
/// those of the first job; a target is marked on the scale where all have the same.
///
/// @param jobs  at least one
/// @param views one a job, or none
Drawing layout_sheet(const std::vector<ComparedJob>& jobs, std::span<const PanelView> views = {});

}  // namespace evenlit
