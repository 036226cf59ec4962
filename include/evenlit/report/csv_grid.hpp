#pragma once

#include <string>

#include "evenlit/field/work_plane_light.hpp"

namespace evenlit {

/// The grid as comma-separated values: a header row, then a row a point with `x_m,y_m,height_m` to the millimetre,
/// `illuminance_lx,illuminance_fc,direct_lx` to four significant digits and `error_lx` to two. Lines end in a line
/// feed, decimals in a point; only numbers are written, so nothing in a job can become a formula in a spreadsheet.
///
/// @source RFC 4180, but for the line ends
std::string csv_grid(const WorkPlaneLight& light);

}  // namespace evenlit
