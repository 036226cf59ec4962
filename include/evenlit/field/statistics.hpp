#pragma once

#include <Eigen/Core>
#include <optional>

namespace evenlit {

/// How light is spread over a set of points that stand for equal areas.
struct Statistics {
  double average_lx = 0;
  double minimum_lx = 0;
  double maximum_lx = 0;
  int minimum_at = 0;  ///< index of the point
  int maximum_at = 0;
  double p10_lx = 0;  ///< a tenth of the points lie below
  double p90_lx = 0;
  double coefficient_of_variation = 0;  ///< standard deviation (of the population) / average
  double uniformity_min_avg = 0;        ///< U0 of EN 12464-1
  double uniformity_min_max = 0;
  std::optional<double> max_min;          ///< absent when the minimum is 0
  std::optional<double> share_at_target;  ///< of the points at or above the target; absent without a target
  double direct_share = 0;                ///< average direct / average total
};

/// @param total_lx  at least one point, finite, >= 0
/// @param direct_lx the part that comes straight from the luminaires, same points
Statistics statistics(const Eigen::VectorXd& total_lx, const Eigen::VectorXd& direct_lx,
                      std::optional<double> target_lx);

}  // namespace evenlit
