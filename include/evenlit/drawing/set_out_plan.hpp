#pragma once

#include <string>

#include "evenlit/drawing/drawing.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/placing/set_out.hpp"

namespace evenlit {

/// A scale of the trade.
struct DrawingScale {
  double ratio = 1;  ///< room over paper
  std::string name;  ///< `1/4 in = 1 ft`, `1:50`
};

/// The largest of the trade's usual scales at which a room of that size fits into so much paper.
///
/// Imperial: those of an architect's rule, 3 in to 1/16 in to the foot, then an engineer's, 20 to 100 ft to the inch.
/// Metric: 1, 2, 2.5 and 5 with noughts. Larger rooms have a ratio of 1 or 2 or 5 with noughts.
DrawingScale drawing_scale(double width_m, double depth_m, double paper_width_m, double paper_height_m, Units units);

/// The plan that a crew marks a ceiling by, black on white and to scale on paper: walls with names and dimensions,
/// framing, keep-outs and fans, the lines to snap, cans with their numbers in the order of work and, where there is
/// room for them, their running dimensions; the scale, and a bar to check the print by.
///
/// The sheet is `k_paper_width` wide and not taller than `k_paper_height`; no text is smaller than 18 units.
///
/// @param set_out of the job
Drawing set_out_plan(const Job& job, const SetOut& set_out);

}  // namespace evenlit
