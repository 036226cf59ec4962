#pragma once

#include <string>
#include <vector>

#include "evenlit/base/result.hpp"
#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// What mirrors the planes of a full circle onto each other.
enum class Symmetry { none, rotational, about_c0, about_c90, quadrant };

/// @param distribution of type C
Symmetry symmetry_of(const IntensityDistribution& distribution);

/// The distribution in planes around the vertical; where it has to be tabulated anew, a warning says by how much of the
/// peak it changes at most at the directions of the old table.
///
/// @param place, reason for the warning
IntensityDistribution in_c_planes(const IntensityDistribution& distribution, const Place& place,
                                  std::string_view reason, Problems& warnings);

/// The same function with a plane at each of some angles, interpolated where the table has none there.
IntensityDistribution with_planes_at(IntensityDistribution distribution, const std::vector<double>& c_deg);

/// The same function with rows of 0 where the table begins after `first_deg` or ends before `last_deg`: a millionth of
/// a degree outside it, and at that angle.
IntensityDistribution reaching(IntensityDistribution distribution, double first_deg, double last_deg);

/// Columns from one C to another, both among the table's planes.
IntensityDistribution planes_between(const IntensityDistribution& distribution, double from_deg, double to_deg);

/// An angle in at most six decimals.
std::string written_angle(double deg);

/// Decimals of a table's numbers: six digits counted from the largest.
int decimals_for(double largest);

}  // namespace evenlit
