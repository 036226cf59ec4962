#pragma once

#include <optional>
#include <span>
#include <vector>

#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// The light on a plane square to the vertical, at one distance straight below a luminaire.
struct ConeRow {
  double distance_m = 0;
  double centre_lx = 0;            ///< straight below
  std::optional<double> along_m;   ///< width of the beam in the plane C 0 - C 180, edge to edge
  std::optional<double> across_m;  ///< the same in C 90 - C 270
};

/// The cone of light: inverse squares of the distances, and the width between the directions of half the maximum
/// intensity, which is 2 d tan(half the beam angle) where the beam is symmetric. A width is empty where there is no
/// beam angle or an edge is not below the horizontal.
///
/// Holds from about five times the size of the opening on.
///
/// @param distances_m > 0
/// @source ANSI/IES LS-1, "beam angle"; five times: common practice
std::vector<ConeRow> cone_table(const IntensityDistribution& distribution, std::span<const double> distances_m);

}  // namespace evenlit
