#pragma once

#include "evenlit/photometry/distribution.hpp"

namespace evenlit::reference {

/// A smooth beam without light above the horizontal.
IntensityDistribution beam(double lumens, double beam_angle_deg);

/// Diffuse on both sides.
IntensityDistribution down_and_up(double down_cd, double up_cd);

/// A table in whole degrees that holds nearly all its light within 10 degrees, as narrow spots are published.
IntensityDistribution spot_of_ten_degrees();

/// Thrown to the side of C 0, within 60 degrees: planes every 15 degrees, vertical angles every 5.
IntensityDistribution wall_wash(double peak_cd);

/// Planes that share the axis along C 0: a long luminaire, narrow across.
IntensityDistribution trough(double peak_cd);

}  // namespace evenlit::reference
