#pragma once

#include <optional>

#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// How far apart luminaires may stand, as a multiple of their height above the work plane, for its direct light to be
/// about even.
struct SpacingCriterion {
  double along = 0;     ///< in the plane C 0 - C 180
  double across = 0;    ///< in the plane C 90 - C 270
  double diagonal = 0;  ///< side of a square of four
};

/// Midway between two luminaires of a row there shall be as much direct light as straight below a single one, and as
/// much in the middle of a square of four; the smaller of the two spacings counts for a plane. Where the luminaire is
/// not symmetric, each side of it is taken as it is.
///
/// @return empty where there is no light straight down or most of it goes up
/// @source definition: ANSI/IES LS-1, "luminaire spacing criterion"; procedure from memory, the IES Lighting Handbook,
///         8th ed. 1993 or 9th ed. 2000, is the place to check
std::optional<SpacingCriterion> spacing_criterion(const IntensityDistribution& distribution);

}  // namespace evenlit
