#include "evenlit/photometry/photometric_summary.hpp"

#include <array>

#include "evenlit/base/length.hpp"
#include "evenlit/photometry/beam.hpp"

namespace evenlit {
namespace {

BeamAngles beam_angles(const IntensityDistribution& distribution, double c_deg) {
  return {spread_angle_deg(distribution, 0.5, c_deg), spread_angle_deg(distribution, 0.1, c_deg),
          cie_beam_angle_deg(distribution, c_deg)};
}

std::optional<double> ratio(double value, const std::optional<double>& to) {
  return to && *to > 0 ? std::optional(value / *to) : std::nullopt;
}

std::vector<ConeRow> cone_in_feet(const IntensityDistribution& distribution) {
  std::array<double, 6> distances_m{4, 6, 8, 10, 12, 14};
  for (double& distance_m : distances_m) distance_m *= k_metres_per_foot;
  return cone_table(distribution, distances_m);
}

std::vector<ConeRow> cone_in_metres(const IntensityDistribution& distribution) {
  return cone_table(distribution, std::array{1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0});
}

}  // namespace

PhotometricSummary photometric_summary(const PhotometricFile& file) {
  PhotometricSummary summary;
  summary.tilt_factor = tilt_factor(file, 0);
  const IntensityDistribution distribution = scaled(file.distribution, summary.tilt_factor);
  summary.lumens = lumens(distribution);
  summary.lamp_lumens = lamps_of(file).lumens;
  summary.light_output_ratio = ratio(summary.lumens, summary.lamp_lumens);
  summary.watts = lamps_of(file).watts;
  summary.efficacy_lm_w = ratio(summary.lumens, summary.watts);

  summary.peak = peak(distribution);
  summary.centre_beam_cd = centre_beam_cd(distribution);
  summary.along = beam_angles(distribution, 0);
  summary.across = beam_angles(distribution, 90);

  summary.cone_feet = cone_in_feet(distribution);
  summary.cone_metres = cone_in_metres(distribution);
  summary.zones = zonal_summary(distribution, summary.lamp_lumens);
  summary.spacing = spacing_criterion(distribution);
  summary.luminance = luminance_table(distribution, file.opening);
  summary.utilization = utilization_table(zonal_flux(summary.zones), summary.light_output_ratio.value_or(1));
  return summary;
}

}  // namespace evenlit
