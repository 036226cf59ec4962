#pragma once

#include "angle_list.hpp"
#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// The distribution behind a table of type C: angles put in order, symmetric planes added, one value at each pole.
///
/// @param candela        vertical x horizontal, >= 0
/// @param from_90_is_own whether horizontal angles 90...270 belong to the file's version
/// @errors angles out of order, out of range, or that do not cover the circle
Result<IntensityDistribution> type_c_distribution(AngleList vertical, AngleList horizontal, Eigen::ArrayXXd candela,
                                                  bool from_90_is_own, Problems& warnings);

}  // namespace evenlit
