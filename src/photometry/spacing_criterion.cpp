#include "evenlit/photometry/spacing_criterion.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <numbers>
#include <numeric>

#include "evenlit/photometry/beam.hpp"
#include "sphere.hpp"

namespace evenlit {
namespace {

/// Tangent of the largest angle from straight down at which luminaires of height 1, each seen in one of the planes,
/// together give as much light on the work plane as one of them straight below; empty where they never do.
std::optional<double> largest_tangent(const IntensityDistribution& distribution, std::initializer_list<double> planes) {
  constexpr int k_steps_per_degree = 10;
  constexpr int k_halvings = 45;  // of a tenth of a degree: down to rounding
  const double wanted_lx = centre_beam_cd(distribution);
  const auto is_enough = [&](double angle_deg) {
    double candela = 0;
    for (const double c_deg : planes) candela += intensity_at(distribution, angle_deg, c_deg);
    const double cosine = std::cos(angle_deg * k_rad_per_deg);
    return candela * cosine * cosine * cosine >= wanted_lx;
  };

  int step = 90 * k_steps_per_degree - 1;
  while (step > 0 && !is_enough(static_cast<double>(step) / k_steps_per_degree)) --step;
  if (step == 0) return std::nullopt;
  double inner_deg = static_cast<double>(step) / k_steps_per_degree;
  double outer_deg = static_cast<double>(step + 1) / k_steps_per_degree;
  for (int i = 0; i < k_halvings; ++i) {
    const double middle_deg = std::midpoint(inner_deg, outer_deg);
    (is_enough(middle_deg) ? inner_deg : outer_deg) = middle_deg;
  }
  return std::tan(inner_deg * k_rad_per_deg);
}

}  // namespace

std::optional<SpacingCriterion> spacing_criterion(const IntensityDistribution& distribution) {
  if (centre_beam_cd(distribution) <= 0) return std::nullopt;
  if (zonal_lumens(distribution, 90, 180) > zonal_lumens(distribution, 0, 90)) return std::nullopt;
  const auto along = largest_tangent(distribution, {0, 180});
  const auto across = largest_tangent(distribution, {90, 270});
  const auto diagonal = largest_tangent(distribution, {45, 135, 225, 315});
  if (!along || !across || !diagonal) return std::nullopt;
  const double of_four = std::numbers::sqrt2 * *diagonal;
  return SpacingCriterion{std::min(2 * *along, of_four), std::min(2 * *across, of_four), of_four};
}

}  // namespace evenlit
