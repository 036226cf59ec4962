#pragma once

#include <span>
#include <vector>

#include "evenlit/drawing/drawing.hpp"
#include "evenlit/drawing/layout_sheet.hpp"
#include "evenlit/drawing/panel_view.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/moods/room_moods.hpp"
#include "evenlit/room/box.hpp"
#include "evenlit/room/grid.hpp"

namespace evenlit {

/// A room in its moods side by side: for each the plan with its light in false colour, isolux lines, framing, cans with
/// as much of each in white as it gives of its full light, average and minimum on the work plane, watts, colour
/// temperature and what each circuit gives; one colour scale and one drawing scale for all. What is not known, as the
/// watts of a can that has none, is a dash.
///
/// Moods are as unlike as 1 fc and 40 fc. So the colours go by the square root of the light, as what an eye makes of it
/// does (`perceived_brightness`), and isolux lines have values of all sizes; the legend tells it. Of more than
/// `k_most_panels` moods the first are shown, and the heading says so.
///
/// Up to four moods are at most two side by side and what is written to a panel is 24 units or larger, so that the
/// sheet reads on a phone's width.
///
/// @param boxes of the job's scene
/// @param grid  of the job's work plane
/// @param moods of the job on that grid, one or more
/// @param views of the room in each mood, to stand below its plan; none, or one a mood
Drawing mood_sheet(const Job& job, const std::vector<Box>& boxes, const Grid& grid, const RoomMoods& moods,
                   std::span<const PanelView> views = {});

}  // namespace evenlit
