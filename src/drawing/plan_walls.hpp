#pragma once

#include <string>
#include <vector>

#include "evenlit/job/job.hpp"
#include "plan_view.hpp"

namespace evenlit {

/// How far walls, names and dimensions reach beyond the plan.
inline constexpr double k_outside_plan = 84;

/// Dimension lines of all walls: beside the plan where nothing of it is in the way, beside the wall otherwise.
std::vector<DrawingItem> wall_dimensions(const Shape& room, const PlanView& view, Units units);

/// A length between two points of the sheet, beside the line from one to the other: on its right, as seen.
std::vector<DrawingItem> dimension_line(const Eigen::Vector2d& from, const Eigen::Vector2d& to, double distance,
                                        const std::string& length);

/// What encloses a room, on the plan or in an upright plane, as a dark band outside of its outline.
///
/// @param outline_m counter-clockwise
DrawingItem wall_band(const Polygon& outline_m, const PlanView& view);

/// The walls' names beside the band.
std::vector<DrawingItem> wall_names(const Shape& room, const PlanView& view);

}  // namespace evenlit
