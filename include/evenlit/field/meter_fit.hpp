#pragma once

#include <Eigen/Core>
#include <array>
#include <functional>
#include <optional>
#include <vector>

namespace evenlit {

// What readings of a lux meter say of a prediction. Arithmetic alone: it knows light at some points, by can, and how it
// changes with the room's reflectances, but no room.

/// A fitted value and where it is with 95 % confidence.
struct Interval {
  double value = 0;
  double least = 0;
  double most = 0;

  [[nodiscard]] bool contains(double other) const { return least <= other && other <= most; }
};

/// Shifts of reflectance from the job's: floor, ceiling, walls.
using Shifts = Eigen::Vector3d;

struct MeterProblem {
  Eigen::VectorXd reading_lx;
  Eigen::MatrixXd by_can_lx;                               ///< predicted: readings x cans, at their levels
  double meter_accuracy = 0;                               ///< relative, common to all readings, with 95 % confidence
  Shifts least_shift;                                      ///< 0 or less
  Shifts most_shift;                                       ///< 0 or more
  std::function<Eigen::VectorXd(const Shifts&)> light_lx;  ///< predicted in all with other reflectances; at 0 the sum
                                                           ///< over the cans
};

/// A can that may be the reason for a reading that is too low.
struct SuspectCan {
  int can = 0;
  double missing = 0;  ///< share of its light that would explain it best, all readings considered, 0...1
};

/// A reading against what is predicted.
struct ComparedReading {
  double predicted_lx = 0;
  std::optional<double> deviation;  ///< reading / prediction - 1; empty where too little is predicted to compare
  double residual = 0;              ///< the same against the prediction with everything fitted
  bool is_outlier = false;          ///< it does not go with the others and nothing is fitted to it
  std::optional<SuspectCan> suspect;
};

struct FittedFactor {
  Interval value;      ///< the meter's accuracy and the readings' scatter together
  double scatter = 0;  ///< relative standard deviation of a reading
};

struct FittedShift {
  Interval value;
  bool is_told = false;  ///< the readings tell it twice as well as was known without them
};

struct FittedSurfaces {
  std::array<FittedShift, 3> shifts;  ///< floor, ceiling, walls
  Interval factor;                    ///< of the light that these reflectances make
  double scatter = 0;                 ///< what is left of it
};

struct MeterFit {
  std::vector<ComparedReading> readings;
  std::optional<double> average;           ///< reading / prediction - 1 of those that are compared, without outliers
  std::optional<FittedFactor> factor;      ///< of all light, reflectances as the job has them
  std::optional<FittedSurfaces> surfaces;  ///< together with a factor
};

/// Less light than this is too little for a usual meter to compare: common practice, no source.
inline constexpr double k_least_compared_lx = 1;

inline constexpr int k_fewest_for_factor = 3;
inline constexpr int k_fewest_for_outliers = 4;
inline constexpr int k_fewest_for_surfaces = 6;

/// Standard deviation of what a reflectance is before any reading, of the job's: a paint chip or a guess by eye (common
/// practice, no source). What readings cannot tell stays at the job's value with this uncertainty.
inline constexpr double k_reflectance_doubt = 0.1;

/// Fits one factor to all readings, and reflectances together with a factor.
///
/// A reading is factor x predicted light x (1 + scatter), where the scatter of each is its own and normal. The factor's
/// interval is Student's for the mean, in quadrature with the meter's accuracy, which no number of readings lessens.
/// Reflectances are fitted by Gauss-Newton with bounds and a normal prior of `k_reflectance_doubt` around the job's;
/// their intervals follow from the curvature there, cut at the bounds. Readings that do not go with the others are left
/// out: by Huber's weights at first, then by the generalised extreme studentised deviate test at 1 %, if they are also
/// off by a tenth.
///
/// @source P. J. Huber, "Robust estimation of a location parameter", Annals of Mathematical Statistics 35 (1964);
///         B. Rosner, "Percentage points for a generalized ESD many-outlier procedure", Technometrics 25 (1983) (both
///         from memory)
MeterFit meter_fit(const MeterProblem& problem);

}  // namespace evenlit
