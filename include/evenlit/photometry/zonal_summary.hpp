#pragma once

#include <array>
#include <optional>

#include "evenlit/photometry/distribution.hpp"
#include "evenlit/photometry/zonal_cavity.hpp"

namespace evenlit {

/// The light between two vertical angles.
struct Zone {
  double from_deg = 0;
  double to_deg = 0;
  double lumens = 0;
  double luminaire_share = 0;        ///< of all light of the luminaire
  std::optional<double> lamp_share;  ///< of the lamps' rated lumens, where these are known
};

struct ZonalSummary {
  std::array<Zone, 18> zones;  ///< of 10 degrees, from straight down to straight up
  std::array<Zone, 6> groups;  ///< 0-30, 0-40, 0-60, 0-90, 90-180 and 0-180 degrees: the usual ones (from memory)
};

ZonalSummary zonal_summary(const IntensityDistribution& distribution, std::optional<double> lamp_lumens = {});

/// The zones as the zonal-cavity method takes them.
ZonalFlux zonal_flux(const ZonalSummary& summary);

}  // namespace evenlit
