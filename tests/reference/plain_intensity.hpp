#pragma once

#include <Eigen/Core>

#include "evenlit/photometry/distribution.hpp"

namespace evenlit::reference {

/// Intensity toward a direction (of any length but 0) in the luminaire's frame, cd: the table read by the definition of
/// its angles in `IntensityDistribution`, bilinear, in double precision, with no code of the engine.
double plain_intensity(const IntensityDistribution& distribution, const Eigen::Vector3d& direction);

}  // namespace evenlit::reference
