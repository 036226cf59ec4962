#pragma once

#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// The largest intensity and where it points.
struct Peak {
  double candela = 0;
  double gamma_deg = 0;  ///< from straight down
  double c_deg = 0;      ///< 0 where the peak is straight down or up, or the light the same all around
};

/// Of several directions that share the largest intensity the one nearest to straight down, and of those the first
/// counted from C 0.
Peak peak(const IntensityDistribution& distribution);

}  // namespace evenlit
