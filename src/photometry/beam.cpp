#include "evenlit/photometry/beam.hpp"

#include <algorithm>
#include <vector>

#include "evenlit/base/degrees.hpp"

namespace evenlit {
namespace {

/// A direction in the plane C / C+180, counted from straight down and positive on the C side, with its intensity.
struct ProfilePoint {
  double angle_deg;
  double candela;
};

bool has_vertical_planes(const IntensityDistribution& distribution) {
  return distribution.axis == IntensityDistribution::Axis::vertical;
}

/// Vertical angles between which the intensity of a plane is a straight line: exactly so between those of a table of
/// vertical planes, which end where the data do.
std::vector<double> stations_deg(const IntensityDistribution& distribution) {
  if (has_vertical_planes(distribution)) return distribution.gamma_deg;
  constexpr int k_steps_per_degree = 10;
  std::vector<double> stations;
  for (int step = 0; step <= 180 * k_steps_per_degree; ++step) {
    stations.push_back(static_cast<double>(step) / k_steps_per_degree);
  }
  return stations;
}

/// Without the dark at both ends, where the data of a table that is cut obliquely may have ended.
std::vector<ProfilePoint> lit_part(const std::vector<ProfilePoint>& points) {
  const auto is_lit = [](const ProfilePoint& point) { return point.candela > 0; };
  const auto first = std::find_if(points.begin(), points.end(), is_lit);
  const auto last = std::find_if(points.rbegin(), std::make_reverse_iterator(first), is_lit);
  return {first, last.base()};
}

std::vector<ProfilePoint> profile(const IntensityDistribution& distribution, double c_deg) {
  const auto stations = stations_deg(distribution);
  std::vector<ProfilePoint> points;
  std::transform(stations.rbegin(), stations.rend(), std::back_inserter(points), [&](double gamma_deg) {
    return ProfilePoint{-gamma_deg, intensity_at(distribution, gamma_deg, c_deg + 180)};
  });
  std::transform(stations.begin(), stations.end(), std::back_inserter(points), [&](double gamma_deg) {
    return ProfilePoint{gamma_deg, intensity_at(distribution, gamma_deg, c_deg)};
  });
  return has_vertical_planes(distribution) ? points : lit_part(points);
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

std::optional<BeamEdges> edges_of(const std::vector<ProfilePoint>& points, double threshold_cd) {
  const auto from = first_crossing_deg(points.begin(), points.end(), threshold_cd);
  const auto to = first_crossing_deg(points.rbegin(), points.rend(), threshold_cd);
  if (!from || !to) return std::nullopt;
  return BeamEdges{*from, *to};
}

std::optional<double> angle_between_deg(const std::optional<BeamEdges>& edges) {
  return edges ? std::optional(edges->to_deg - edges->from_deg) : std::nullopt;
}

}  // namespace

// At the pole the planes of a table agree, but those that it does not have are dark: its first one is there.
double centre_beam_cd(const IntensityDistribution& distribution) {
  return intensity_at(distribution, 0, distribution.c_deg.front());
}

std::optional<BeamEdges> beam_edges(const IntensityDistribution& distribution, double threshold_cd, double c_deg) {
  if (has_vertical_planes(distribution) && distribution.gamma_deg.front() > 0) return std::nullopt;
  return edges_of(profile(distribution, c_deg), threshold_cd);
}

std::optional<BeamEdges> beam_edges(const IntensityDistribution& distribution, double threshold_cd,
                                    const Eigen::Vector3d& down, const Eigen::Vector3d& aside) {
  constexpr int k_steps_per_degree = 10;
  std::vector<ProfilePoint> points;
  for (int step = -180 * k_steps_per_degree; step <= 180 * k_steps_per_degree; ++step) {
    const double angle_deg = static_cast<double>(step) / k_steps_per_degree;
    const Eigen::Vector3d direction = cosine_of_degrees(angle_deg) * down + sine_of_degrees(angle_deg) * aside;
    points.push_back({angle_deg, intensity_toward(distribution, direction)});
  }
  return edges_of(lit_part(points), threshold_cd);
}

std::optional<double> spread_angle_deg(const IntensityDistribution& distribution, double fraction, double c_deg) {
  return angle_between_deg(beam_edges(distribution, fraction * distribution.candela.maxCoeff(), c_deg));
}

std::optional<double> cie_beam_angle_deg(const IntensityDistribution& distribution, double c_deg) {
  const double centre_cd = centre_beam_cd(distribution);
  if (centre_cd <= 0) return std::nullopt;
  return angle_between_deg(beam_edges(distribution, centre_cd / 2, c_deg));
}

}  // namespace evenlit
