#pragma once

#include <string>

#include "evenlit/field/readings_light.hpp"

namespace evenlit {

/// Task areas, points and surfaces as comma-separated values, a row each, after a header row:
/// `kind,name,area_m2,points,average_lx,average_fc,average_error_lx,minimum_lx,minimum_fc,maximum_lx,maximum_fc,`
/// `uniformity,luminance_cd_m2,luminance_error_cd_m2`. What a row does not have is empty: of a point, its illuminance
/// stands as the average. Illuminance and luminance have four significant digits, errors two. Names stand in double
/// quotes, one that a spreadsheet would take for a formula after an apostrophe.
///
/// @source RFC 4180, but for the line ends
std::string csv_readings(const ReadingsLight& light);

}  // namespace evenlit
