#pragma once

#include "angle_list.hpp"
#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// Carries the outermost candelas to the next multiple of 90 degrees where the data end no more than a step before it;
/// where they end farther from it, says that the rest counts as 0.
///
/// @errors fewer than two angles
Result<void> complete_ends(AngleList& vertical, Eigen::ArrayXXd& candela, Problems& warnings);

/// All planes meet at the poles, so each pole has one intensity: the mean over the planes.
///
/// @param vertical             the table's rows in the file's angles
/// @param low_pole, high_pole  what these angles are at the poles
void level_poles(IntensityDistribution& distribution, const AngleList& vertical, double low_pole, double high_pole,
                 Problems& warnings);

}  // namespace evenlit
