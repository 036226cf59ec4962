#pragma once

#include <Eigen/Geometry>

#include "evenlit/field/work_plane_light.hpp"
#include "evenlit/job/job.hpp"
#include "free_space.hpp"
#include "plan_view.hpp"

namespace evenlit {

/// Joists and other framing as pairs of thin dashed lines across the plan; no joists where they would be too close to
/// tell apart.
std::vector<DrawingItem> framing_lines(const Job& job, const PlanView& view);

/// A piece of framing for a legend, about the origin.
std::vector<DrawingItem> framing_sample();

/// How far points are from the nearest edge of a polygon, negative outside of it, on a lattice over a rectangle.
SampledField depths_in(const Polygon& polygon, const Eigen::AlignedBox2d& box, double spacing);

/// A fine dotted line where the figures' grid ends before the walls; none without a margin.
std::vector<DrawingItem> margin_line(const Polygon& plan_m, double margin_m, const PlanView& view);

/// The outlines of the scene's boxes: filled where they reach through the work plane, full lines where they stand below
/// it, dashed where they hang above.
std::vector<DrawingItem> box_marks(const std::vector<Box>& boxes, double work_plane_m, const PlanView& view);

/// Discs that together lie on the boxes that `box_marks` fills, for labels to keep off.
std::vector<Disc> filled_box_discs(const std::vector<Box>& boxes, double work_plane_m, const PlanView& view);

/// The cans' holes, or openings where no hole is given, to scale (but never too small to see).
///
/// @param luminaires one a can
std::vector<Disc> can_discs(const std::vector<CanType>& types, const std::vector<Can>& cans,
                            const std::vector<Luminaire>& luminaires, const PlanView& view);

/// Cans as circles with a cross on the centre, numbered from 1.
std::vector<DrawingItem> can_marks(const std::vector<Disc>& cans, FreeSpace& space);

/// How a can is drawn: its hole with a cross on the centre, upright or, where something is amiss, aslant and heavy.
std::vector<DrawingItem> can_mark(const Disc& can, bool is_amiss);

inline constexpr double k_darkest_radius = 13;

/// The mark on the darkest grid point.
std::vector<DrawingItem> darkest_mark(const Eigen::Vector2d& at);

/// The mark on the darkest grid point with its value.
std::vector<DrawingItem> labelled_darkest_mark(const WorkPlaneLight& light, const PlanView& view, Units units,
                                               FreeSpace& space);

}  // namespace evenlit
