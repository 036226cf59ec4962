#pragma once

#include <vector>

#include "evenlit/base/polygon.hpp"
#include "evenlit/drawing/drawing.hpp"
#include "evenlit/drawing/sampled_field.hpp"

namespace evenlit {

/// The lines along which a field has a value, by marching squares over its lattice cells; greater values lie to the
/// left. A closed line ends on its first point. Which diagonal joins in a saddle is decided as the bilinear function
/// has it.
///
/// The lines are straight within a cell; pass a `refined` field to follow the bilinear function's curves.
///
/// @source the asymptotic decider: G. M. Nielson, B. Hamann, IEEE Visualization '91, 83-91, 1991
std::vector<Polyline> contours(const SampledField& field, double value);

/// The pieces of lines that run inside a simple polygon.
std::vector<Polyline> clipped(const std::vector<Polyline>& lines, const Polygon& polygon);

/// Round values 1, 2 or 5 x 10^n apart, at most ten of them, from one step up to less than `top`.
std::vector<double> round_levels(double top);

}  // namespace evenlit
