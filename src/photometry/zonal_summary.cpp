#include "evenlit/photometry/zonal_summary.hpp"

#include <algorithm>
#include <utility>

namespace evenlit {

ZonalSummary zonal_summary(const IntensityDistribution& distribution, std::optional<double> lamp_lumens) {
  ZonalSummary summary;
  double all = 0;
  for (std::size_t i = 0; i < summary.zones.size(); ++i) {
    const double from_deg = 10.0 * static_cast<double>(i);
    summary.zones[i] = {from_deg, from_deg + 10, zonal_lumens(distribution, from_deg, from_deg + 10), 0, {}};
    all += summary.zones[i].lumens;
  }
  constexpr std::array<std::pair<int, int>, 6> k_groups{{{0, 3}, {0, 4}, {0, 6}, {0, 9}, {9, 18}, {0, 18}}};
  std::ranges::transform(k_groups, summary.groups.begin(), [&](const auto& group) {
    Zone joined{10.0 * group.first, 10.0 * group.second, 0, 0, {}};
    for (int i = group.first; i < group.second; ++i) joined.lumens += summary.zones[static_cast<std::size_t>(i)].lumens;
    return joined;
  });
  const auto add_shares = [&](Zone& zone) {
    zone.luminaire_share = all > 0 ? zone.lumens / all : 0;
    if (lamp_lumens) zone.lamp_share = zone.lumens / *lamp_lumens;
  };
  std::ranges::for_each(summary.zones, add_shares);
  std::ranges::for_each(summary.groups, add_shares);
  return summary;
}

ZonalFlux zonal_flux(const ZonalSummary& summary) {
  ZonalFlux flux;
  for (std::size_t i = 0; i < summary.zones.size(); ++i) {
    (i < flux.down.size() ? flux.down[i] : flux.up) += summary.zones[i].lumens;
  }
  return flux;
}

}  // namespace evenlit
