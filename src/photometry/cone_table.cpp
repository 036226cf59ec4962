#include "evenlit/photometry/cone_table.hpp"

#include <cmath>

#include "evenlit/photometry/beam.hpp"
#include "sphere.hpp"

namespace evenlit {
namespace {

/// Width of the beam at distance 1.
std::optional<double> unit_width(const IntensityDistribution& distribution, double c_deg) {
  const auto edges = beam_edges(distribution, distribution.candela.maxCoeff() / 2, c_deg);
  if (!edges || edges->from_deg <= -90 || edges->to_deg >= 90) return std::nullopt;
  return std::tan(edges->to_deg * k_rad_per_deg) - std::tan(edges->from_deg * k_rad_per_deg);
}

std::optional<double> times(const std::optional<double>& value, double factor) {
  return value ? std::optional(*value * factor) : std::nullopt;
}

}  // namespace

std::vector<ConeRow> cone_table(const IntensityDistribution& distribution, std::span<const double> distances_m) {
  const double centre_cd = centre_beam_cd(distribution);
  const auto along = unit_width(distribution, 0);
  const auto across = unit_width(distribution, 90);
  std::vector<ConeRow> rows;
  for (const double d : distances_m) rows.push_back({d, centre_cd / (d * d), times(along, d), times(across, d)});
  return rows;
}

}  // namespace evenlit
