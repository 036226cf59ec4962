#pragma once

#include <span>
#include <vector>

#include "evenlit/job/job.hpp"
#include "evenlit/photometry/photometric_file.hpp"

namespace evenlit {

/// A fan whose blades chop the light of a can.
struct FanHit {
  int can = 0;  ///< indices into the job's
  int fan = 0;
  double field_angle_deg = 0;  ///< full angle of the can's cone, with room for a field that is not centred
  double blade_angle_deg = 0;  ///< from the can's aim to the nearest point of the circle of the blades
};

/// The full angle of the smallest cone about the aim that holds all directions of a tenth of the peak, in the planes C
/// 0 and C 90; as far as the data go where they end above that.
double field_cone_deg(const PhotometricFile& file);

/// The cans whose field cone meets the circle of a fan's blades: with the blades turning, their light flickers.
///
/// Common practice, no source. The nearest point of the circle is sought in steps of half a degree.
///
/// @param photometry one a can type, in the job's order
std::vector<FanHit> fan_check(const Job& job, std::span<const PhotometricFile> photometry);

}  // namespace evenlit
