#pragma once

#include <optional>
#include <string>

#include "evenlit/field/work_plane_light.hpp"
#include "evenlit/job/job.hpp"
#include "free_space.hpp"
#include "plan_view.hpp"

namespace evenlit {

/// Joists and other framing as pairs of thin dashed lines across the plan; no joists where they would be too close to
/// tell apart.
std::vector<DrawingItem> framing_lines(const Job& job, const PlanView& view);

/// A fine dotted line where the figures' grid ends before the walls; none without a margin.
std::vector<DrawingItem> margin_line(const Polygon& plan_m, double margin_m, const PlanView& view);

/// The outlines of the scene's boxes: filled where they reach through the work plane, full lines where they stand below
/// it, dashed where they hang above.
std::vector<DrawingItem> box_marks(const std::vector<Box>& boxes, double work_plane_m, const PlanView& view);

/// Discs that together lie on the boxes that `box_marks` fills, for labels to keep off.
std::vector<Disc> filled_box_discs(const std::vector<Box>& boxes, double work_plane_m, const PlanView& view);

/// The cans' holes, or openings where no hole is given, to scale (but never too small to see), in the job's order.
std::vector<Disc> can_discs(const Job& job, const Scene& scene, const PlanView& view);

/// Cans as circles with a cross on the centre, numbered from 1.
std::vector<DrawingItem> can_marks(const std::vector<Disc>& cans, FreeSpace& space);

/// A label in the first free place around a mark; empty where all is taken.
std::optional<Text> label_beside(const std::string& label, const Disc& mark, Weight weight, const FreeSpace& space);

/// A mark on the darkest grid point with its value.
std::vector<DrawingItem> darkest_mark(const WorkPlaneLight& light, const PlanView& view, Units units, FreeSpace& space);

}  // namespace evenlit
