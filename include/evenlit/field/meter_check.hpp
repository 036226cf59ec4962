#pragma once

#include <array>
#include <vector>

#include "evenlit/base/progress.hpp"
#include "evenlit/base/result.hpp"
#include "evenlit/field/meter_fit.hpp"
#include "evenlit/job/meter_readings.hpp"
#include "evenlit/photometry/photometric_file.hpp"

namespace evenlit {

/// A finished room, read by a lux meter, against the engine's prediction.
struct MeterCheck {
  std::vector<MeterReading> readings;
  double meter_accuracy = 0;          ///< relative
  MeterFit fit;                       ///< its readings in the same order
  Eigen::VectorXd error_lx;           ///< the engine's estimate of its own error at each reading
  double new_over_maintained = 1;     ///< light of new lamps at the readings over that predicted, by the light loss
                                      ///< factors
  std::array<double, 3> reflectance;  ///< in the job, averages over the area: floor, ceiling, walls
};

/// Compares readings with the light that is predicted where they were taken, at the same levels of the cans.
///
/// Other reflectances are tried on a coarse mesh, whose light is taken in proportion; each may be up to 0.2 from the
/// job's, between 0.02 and 0.95, all walls shifted alike, wall areas and obstructions as they are.
///
/// @param photometry one a can type, in the job's order
/// @param readings   one or more
/// @param can_levels one a can, fractions of full output
/// @param meter_accuracy relative, of the meter, as `MeterProblem` has it
/// @return with remarks on readings that cannot be compared, or are too few to fit anything to
/// @errors a reading inside an obstruction; no light at any reading
Result<Noted<MeterCheck>> meter_check(const Job& job, const std::vector<PhotometricFile>& photometry,
                                      std::vector<MeterReading> readings, const std::vector<double>& can_levels,
                                      double meter_accuracy, const Progress& progress = {});

}  // namespace evenlit
