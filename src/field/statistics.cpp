#include "evenlit/field/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace evenlit {
namespace {

/// Linear interpolation between the ordered values, as Hyndman and Fan (1996) definition 7.
double percentile(const std::vector<double>& ordered, double share) {
  const double place = share * static_cast<double>(ordered.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, ordered.size() - 1);
  return std::lerp(ordered[below], ordered[above], place - static_cast<double>(below));
}

/// The first of the points that are as dark (or as bright) as the extreme up to rounding: in a symmetric room several
/// are, and which one wins must not depend on the machine.
int first_at(const Eigen::VectorXd& values, double extreme) {
  constexpr double k_rounding = 1e-5;
  const auto is_extreme = [&](double value) { return std::abs(value - extreme) <= k_rounding * extreme; };
  return static_cast<int>(std::find_if(values.begin(), values.end(), is_extreme) - values.begin());
}

double ratio(double part, double whole) { return whole > 0 ? part / whole : 0; }

}  // namespace

Statistics statistics(const Eigen::VectorXd& total_lx, const Eigen::VectorXd& direct_lx,
                      std::optional<double> target_lx) {
  std::vector<double> ordered(total_lx.begin(), total_lx.end());
  std::ranges::sort(ordered);

  Statistics result;
  result.average_lx = total_lx.mean();
  result.minimum_lx = ordered.front();
  result.maximum_lx = ordered.back();
  result.minimum_at = first_at(total_lx, result.minimum_lx);
  result.maximum_at = first_at(total_lx, result.maximum_lx);
  result.p10_lx = percentile(ordered, 0.1);
  result.p90_lx = percentile(ordered, 0.9);
  const double variance = (total_lx.array() - result.average_lx).square().mean();
  result.coefficient_of_variation = ratio(std::sqrt(variance), result.average_lx);
  result.uniformity_min_avg = ratio(result.minimum_lx, result.average_lx);
  result.uniformity_min_max = ratio(result.minimum_lx, result.maximum_lx);
  if (result.minimum_lx > 0) result.max_min = result.maximum_lx / result.minimum_lx;
  if (target_lx) {
    const auto reached = (total_lx.array() >= *target_lx).count();
    result.share_at_target = static_cast<double>(reached) / static_cast<double>(total_lx.size());
  }
  result.direct_share = ratio(direct_lx.mean(), result.average_lx);
  return result;
}

}  // namespace evenlit
