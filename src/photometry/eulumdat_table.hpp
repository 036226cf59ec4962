#pragma once

#include "eulumdat_planes.hpp"
#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// The distribution behind the angle lists and the intensities: mirrored planes added, one value at each pole.
///
/// @param candela_factor what an intensity of the file is multiplied by, > 0
/// @errors angles out of order or out of range; intensities that are negative or out of range
Result<IntensityDistribution> eulumdat_distribution(const EulumdatHeader& header, const EulumdatLayout& layout,
                                                    const TablePlanes& planes, const EulumdatNumbers& numbers,
                                                    double candela_factor, Problems& warnings);

}  // namespace evenlit
