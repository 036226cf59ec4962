#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "evenlit/photometry/distribution.hpp"
#include "evenlit/photometry/photometric_file.hpp"

namespace evenlit {

/// Area of the luminous opening as seen from far away in a direction, m2: a disc, a rectangle or an ellipse, with the
/// sides of a cylinder or a box where it has a height; a solid of another shape counts as its outer box.
double projected_area_m2(const Opening& opening, double gamma_deg, double c_deg);

/// Average luminance of the opening by direction.
struct LuminanceTable {
  std::vector<double> gamma_deg;  ///< 45, 55, ... 85
  std::vector<double> c_deg;      ///< {0}: the same all around; 0, 45, 90: the same in all quadrants; else all around
  Eigen::ArrayXXd cd_m2;          ///< gamma x C
};

/// @return empty where the opening shows no area in one of the directions, as a point does
/// @source luminance as intensity over projected area: CIE S 017:2020; the choice of angles is usual in reports (from
///         memory)
std::optional<LuminanceTable> luminance_table(const IntensityDistribution& distribution, const Opening& opening);

}  // namespace evenlit
