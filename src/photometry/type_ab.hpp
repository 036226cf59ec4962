#pragma once

#include "angle_list.hpp"
#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// The distribution behind a table of type A or B, in the table's own angles: put in order, symmetric halves added, one
/// value at each pole. Beyond the horizontal angles of the file there is no light.
///
/// @param candela vertical x horizontal, >= 0
/// @param axis    `vertical` for type A, `along_c0` for type B
/// @errors angles out of order or out of range, and fewer than two horizontal angles
/// @source ANSI/IESNA LM-63-2002, definitions of the types (read at second hand). From memory: the ranges of the
///         angles, and that data from 0 on are mirrored; which way the horizontal angle of type B turns
Result<IntensityDistribution> type_ab_distribution(AngleList vertical, AngleList horizontal, Eigen::ArrayXXd candela,
                                                   IntensityDistribution::Axis axis, Problems& warnings);

}  // namespace evenlit
