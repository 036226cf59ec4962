#pragma once

#include "evenlit/drawing/drawing.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/placing/compared_job.hpp"
#include "evenlit/placing/comparison.hpp"
#include "evenlit/room/box.hpp"
#include "evenlit/room/grid.hpp"

namespace evenlit {

/// Two layouts of a comparison: indices of its rows.
struct LayoutPair {
  int before = 0;
  int after = 0;
};

/// Where one layout is brighter or darker than another: the light after minus the light before, on the plan, in colours
/// about 0, whose scale reaches to a tenth of the average at least, and with lines that carry their signs, dashed where
/// less. The cans before are rings, those after are full.
/// The largest gain and the largest loss are marked and told, with the change of the average and how much of the work
/// plane is brighter by more than the numerical errors of both.
///
/// The sheet is 1200 units wide and as tall as the room needs; no text is smaller than 18 units.
///
/// @param boxes      of the job's scene
/// @param grid       of the job's work plane
/// @param comparison of the job on that grid, of at least one layout
Drawing difference_map(const Job& job, const std::vector<Box>& boxes, const Grid& grid, const Comparison& comparison,
                       const LayoutPair& pair);

/// The same of two of several jobs, on the plan of the first of the two.
///
/// @param jobs the two have the same grid
Drawing difference_map(const std::vector<ComparedJob>& jobs, const LayoutPair& pair);

}  // namespace evenlit
