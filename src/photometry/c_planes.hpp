#pragma once

#include <Eigen/Core>
#include <vector>

#include "angle_list.hpp"

namespace evenlit {

/// Candelas in C planes around the full circle, as `IntensityDistribution` has them: {0} alone where every plane is
/// the same, else from 0 to 360 with both stored.
struct CPlanes {
  std::vector<double> c_deg;
  Eigen::ArrayXXd candela;  ///< gamma x C
};

/// Completes a set of planes by the symmetry that its range declares: 0...90 in each quadrant, 0...180 about the 0-180
/// plane, 90...270 about the 90-270 plane, 0...360 none, one plane alone all around. Mirrored planes are exact copies.
///
/// A range that begins elsewhere, and a circle whose last plane is missing, are completed likewise, with a warning.
///
/// @param horizontal     ascending, with its ends on the multiples of 90 that they mean
/// @param candela        gamma x planes, in the order of `horizontal`
/// @param from_90_is_own whether 90...270 belongs to the file's version
/// @errors a range that none of these completes
/// @source LM-63-2002 and LM-63-19, type C symmetry (read at second hand); 90...270: LM-63-1995
Result<CPlanes> full_circle(const AngleList& horizontal, const Eigen::ArrayXXd& candela, bool from_90_is_own,
                            Problems& warnings);

}  // namespace evenlit
