#pragma once

#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// I(gamma) = I0 cos^n(gamma) below the horizontal, with n so that I is half of I0 at half the beam angle and I0 so
/// that the tabulated distribution's flux is `lumens`.
///
/// Tabulated so that the chords stay within 0.0001 I0 of the curve. The half-value direction is a knot, so the table's
/// own beam angle is the one asked for; as chords hold a little too much light, the table's peak is up to 0.1 % off the
/// formula's (n+1) lumens / 2 pi.
///
/// @param lumens         > 0
/// @param beam_angle_deg full angle, 5...150
IntensityDistribution cosine_power_beam(double lumens, double beam_angle_deg);

}  // namespace evenlit
