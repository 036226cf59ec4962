#include "evenlit/photometry/intensity_lookup.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace evenlit {
namespace {

constexpr double k_deg_per_rad = 180 / std::numbers::pi;

double smallest_step(const std::vector<double>& knots) {
  double step = knots.back() - knots.front();
  for (std::size_t i = 1; i < knots.size(); ++i) step = std::min(step, knots[i] - knots[i - 1]);
  return step;
}

std::vector<double> c_knots(const IntensityDistribution& distribution) {
  return is_rotational(distribution) ? std::vector<double>{0, 360} : distribution.c_deg;
}

}  // namespace

KnotFinder::KnotFinder(const std::vector<double>& knots) : knots_(knots) {
  constexpr double k_most_buckets = 4096;
  const double range = knots.back() - knots.front();
  const auto buckets = static_cast<int>(std::clamp(range / smallest_step(knots), 1.0, k_most_buckets));
  buckets_per_unit_ = buckets / range;
  const int last_interval = static_cast<int>(knots.size()) - 2;
  for (int bucket = 0, interval = 0; bucket <= buckets; ++bucket) {
    while (interval < last_interval && (knots[interval + 1] - knots[0]) * buckets_per_unit_ <= bucket) ++interval;
    first_of_bucket_.push_back(interval);
  }
  for (int i = 0; i <= last_interval; ++i) inverse_widths_.push_back(1 / (knots[i + 1] - knots[i]));
}

KnotFinder::Interval KnotFinder::at(double value) const {
  const auto bucket = static_cast<std::size_t>(std::max(0.0, (value - knots_.front()) * buckets_per_unit_));
  int below = first_of_bucket_[std::min(bucket, first_of_bucket_.size() - 1)];
  const int last_interval = static_cast<int>(inverse_widths_.size()) - 1;
  while (below < last_interval && knots_[below + 1] <= value) ++below;
  return {below, (value - knots_[below]) * inverse_widths_[below]};
}

IntensityLookup::IntensityLookup(const IntensityDistribution& distribution)
    : gamma_deg_(distribution.gamma_deg),
      c_deg_(c_knots(distribution)),
      first_gamma_deg_(distribution.gamma_deg.front()),
      last_gamma_deg_(distribution.gamma_deg.back()),
      is_rotational_(is_rotational(distribution)),
      candela_(distribution.candela) {}

double IntensityLookup::toward(const Eigen::Vector3d& direction) const {
  const double gamma_deg = std::acos(std::clamp(-direction.z(), -1.0, 1.0)) * k_deg_per_rad;
  if (gamma_deg < first_gamma_deg_ || gamma_deg > last_gamma_deg_) return 0;

  const auto [i, u] = gamma_deg_.at(gamma_deg);
  const auto in_plane = [&, i = i, u = u](int j) { return candela_(i, j) + u * (candela_(i + 1, j) - candela_(i, j)); };
  if (is_rotational_) return in_plane(0);

  const double c_deg = std::atan2(direction.y(), direction.x()) * k_deg_per_rad;
  const auto [j, v] = c_deg_.at(c_deg < 0 ? c_deg + 360 : c_deg);
  return in_plane(j) + v * (in_plane(j + 1) - in_plane(j));
}

}  // namespace evenlit
