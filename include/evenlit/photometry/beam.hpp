#pragma once

#include <optional>

#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// Intensity straight down, where the beam of a recessed luminaire has its centre, cd.
double centre_beam_cd(const IntensityDistribution& distribution);

/// The outermost directions of a plane C / C+180 that have a certain intensity, in degrees from straight down, positive
/// on the C side.
struct BeamEdges {
  double from_deg = 0;
  double to_deg = 0;
};

/// Searched from the ends of the data inward; empty where the data end above that intensity or do not reach straight
/// down, and where the plane never has it.
///
/// @param threshold_cd the intensity, > 0
/// @param c_deg        the plane; where the beam is thrown to one side both directions may lie on that side
std::optional<BeamEdges> beam_edges(const IntensityDistribution& distribution, double threshold_cd, double c_deg = 0);

/// The same in any plane through the luminaire, whose light may be aimed: in degrees from `down` toward `aside`.
///
/// @param down, aside unit vectors in the luminaire's frame, square to each other
/// @return within 0.1 degree; empty where the data end above that intensity
std::optional<BeamEdges> beam_edges(const IntensityDistribution& distribution, double threshold_cd,
                                    const Eigen::Vector3d& down, const Eigen::Vector3d& aside);

/// Full angle, in the plane C / C+180, between the edges of `fraction` of the distribution's maximum.
///
/// @return degrees
/// @source ANSI/IES LS-1, "beam angle" (fraction 0.5) and "field angle" (0.1)
std::optional<double> spread_angle_deg(const IntensityDistribution& distribution, double fraction, double c_deg = 0);

/// Full angle, in the plane C / C+180, between the edges of half the centre-beam intensity. It differs from the angle
/// of half the maximum where the maximum is off the centre.
///
/// @return degrees
/// @source CIE S 017:2020, "beam angle" (from memory); of the several directions that a dip at the centre can make,
///         the outermost ones
std::optional<double> cie_beam_angle_deg(const IntensityDistribution& distribution, double c_deg = 0);

}  // namespace evenlit
