#include "evenlit/photometry/beam.hpp"

#include <algorithm>
#include <vector>

namespace evenlit {
namespace {

/// A direction in the plane C / C+180, counted from straight down and positive on the C side, with its intensity.
struct ProfilePoint {
  double angle_deg;
  double candela;
};

std::vector<ProfilePoint> profile(const IntensityDistribution& distribution, double c_deg) {
  const auto& gamma = distribution.gamma_deg;
  std::vector<ProfilePoint> points;
  std::transform(gamma.rbegin(), gamma.rend(), std::back_inserter(points), [&](double gamma_deg) {
    return ProfilePoint{-gamma_deg, intensity_at(distribution, gamma_deg, c_deg + 180)};
  });
  std::transform(gamma.begin(), gamma.end(), std::back_inserter(points), [&](double gamma_deg) {
    return ProfilePoint{gamma_deg, intensity_at(distribution, gamma_deg, c_deg)};
  });
  return points;
}

/// Angle of the first rise above the threshold in a walk over the points; empty where the walk begins above it or
/// never gets there.
template <class Iterator>
std::optional<double> first_crossing_deg(Iterator begin, Iterator end, double threshold_cd) {
  const auto inner = std::find_if(begin, end, [&](const ProfilePoint& p) { return p.candela > threshold_cd; });
  if (inner == begin || inner == end) return std::nullopt;
  const ProfilePoint outer = *(inner - 1);
  const double way = (threshold_cd - outer.candela) / (inner->candela - outer.candela);
  return outer.angle_deg + way * (inner->angle_deg - outer.angle_deg);
}

}  // namespace

std::optional<double> spread_angle_deg(const IntensityDistribution& distribution, double fraction, double c_deg) {
  const double threshold_cd = fraction * distribution.candela.maxCoeff();
  const auto points = profile(distribution, c_deg);
  const auto from = first_crossing_deg(points.begin(), points.end(), threshold_cd);
  const auto to = first_crossing_deg(points.rbegin(), points.rend(), threshold_cd);
  if (!from || !to) return std::nullopt;
  return *to - *from;
}

}  // namespace evenlit
