#pragma once

#include <optional>

#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// Full angle, in the plane C / C+180, between the outermost directions whose intensity is `fraction` of the
/// distribution's maximum, searched from the ends of the data inward; empty where the data end above that intensity or
/// the plane never reaches it.
///
/// @param c_deg the plane; where the beam is thrown to one side both directions may lie on that side
/// @return degrees
/// @source ANSI/IES LS-1, "beam angle" (fraction 0.5) and "field angle" (0.1)
std::optional<double> spread_angle_deg(const IntensityDistribution& distribution, double fraction, double c_deg = 0);

}  // namespace evenlit
