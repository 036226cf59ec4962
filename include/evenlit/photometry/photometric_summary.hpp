#pragma once

#include <optional>
#include <vector>

#include "evenlit/photometry/cone_table.hpp"
#include "evenlit/photometry/luminance_table.hpp"
#include "evenlit/photometry/peak.hpp"
#include "evenlit/photometry/photometric_file.hpp"
#include "evenlit/photometry/spacing_criterion.hpp"
#include "evenlit/photometry/utilization_table.hpp"
#include "evenlit/photometry/zonal_summary.hpp"

namespace evenlit {

/// Full angles of the beam in one plane, degrees; empty where there is none.
struct BeamAngles {
  std::optional<double> beam_deg;      ///< between the directions of half the maximum intensity
  std::optional<double> field_deg;     ///< of a tenth of it
  std::optional<double> cie_beam_deg;  ///< of half the centre-beam intensity
};

/// What follows from a photometric file, for the luminaire aimed straight down.
struct PhotometricSummary {
  double tilt_factor = 1;  ///< of the file's tilt data at this aim; all figures below contain it
  double lumens = 0;       ///< leaving the luminaire
  std::optional<double> lamp_lumens;
  std::optional<double> light_output_ratio;  ///< lumens over lamp lumens; empty for absolute photometry
  std::optional<double> watts;
  std::optional<double> efficacy_lm_w;  ///< lumens over watts

  Peak peak;
  double centre_beam_cd = 0;
  BeamAngles along;   ///< plane C 0 - C 180
  BeamAngles across;  ///< plane C 90 - C 270

  std::vector<ConeRow> cone_feet;    ///< at 4, 6, 8, 10, 12 and 14 ft
  std::vector<ConeRow> cone_metres;  ///< at 1, 1.5, 2, 2.5, 3, 4 and 5 m
  ZonalSummary zones;
  std::optional<SpacingCriterion> spacing;
  std::optional<LuminanceTable> luminance;
  UtilizationTable utilization;  ///< shares of the lamps' lumens where these are known, else of the luminaire's
};

/// @source of each figure: the header of its own name
PhotometricSummary photometric_summary(const PhotometricFile& file);

}  // namespace evenlit
