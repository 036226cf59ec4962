#include "intensity_profile.hpp"

#include <algorithm>
#include <cmath>

namespace evenlit {
namespace {

// Where an intensity may have a corner in one of the planes: at the angles of the table, which count from straight
// down, or from the horizontal where the table's axis lies in the plane.
std::vector<double> corners_deg(const IntensityDistribution& distribution) {
  std::vector<double> corners = distribution.gamma_deg;
  if (distribution.axis != IntensityDistribution::Axis::vertical) {
    for (const double gamma_deg : distribution.gamma_deg) corners.push_back(gamma_deg - 90);
    corners.insert(corners.end(), distribution.c_deg.begin(), distribution.c_deg.end());
  }
  return corners;
}

// Close enough together for curves, exact at corners; on both sides of them, as it may be dark beyond the last.
std::vector<double> stations_deg(const IntensityDistribution& distribution) {
  constexpr double k_step_deg = 0.5;
  constexpr double k_beside_deg = 1e-6;
  std::vector<double> stations;
  for (int i = 0; i <= 360 / k_step_deg; ++i) stations.push_back(i * k_step_deg - 180);
  for (const double corner : corners_deg(distribution)) {
    for (const double side : {-1.0, 1.0}) {
      for (const double beside : {-k_beside_deg, 0.0, k_beside_deg}) {
        stations.push_back(std::remainder(side * (corner + beside), 360));
      }
    }
  }
  std::sort(stations.begin(), stations.end());
  stations.erase(std::unique(stations.begin(), stations.end()), stations.end());
  return stations;
}

IntensityProfile profile(const IntensityDistribution& distribution, double c_deg, double peak_cd) {
  IntensityProfile made;
  made.c_deg = c_deg;
  made.name = c_deg == 0 ? "C0 – C180" : "C90 – C270";
  for (const double angle_deg : stations_deg(distribution)) {
    made.points.push_back({angle_deg, intensity_at(distribution, angle_deg, c_deg)});
  }
  if (peak_cd > 0) {
    made.beam = beam_edges(distribution, 0.5 * peak_cd, c_deg);
    made.field = beam_edges(distribution, 0.1 * peak_cd, c_deg);
  }
  return made;
}

bool are_alike(const IntensityProfile& a, const IntensityProfile& b, double difference_cd) {
  return std::equal(
      a.points.begin(), a.points.end(), b.points.begin(), b.points.end(),
      [&](const ProfilePoint& p, const ProfilePoint& q) { return std::abs(p.candela - q.candela) <= difference_cd; });
}

// Calls `see` with the angle from straight down of every point above a share of the greatest.
template <class See>
void see_lit(const std::vector<IntensityProfile>& profiles, double share, See&& see) {
  double peak_cd = 0;
  for (const IntensityProfile& profile : profiles) {
    for (const ProfilePoint& point : profile.points) peak_cd = std::max(peak_cd, point.candela);
  }
  for (const IntensityProfile& profile : profiles) {
    for (const ProfilePoint& point : profile.points) {
      if (point.candela > share * peak_cd) see(std::abs(point.angle_deg));
    }
  }
}

}  // namespace

std::vector<IntensityProfile> intensity_profiles(const IntensityDistribution& distribution) {
  const double peak_cd = distribution.candela.maxCoeff();
  std::vector<IntensityProfile> profiles{profile(distribution, 0, peak_cd)};
  if (is_rotational(distribution)) {
    profiles[0].name = "all planes alike";
    return profiles;
  }
  profiles.push_back(profile(distribution, 90, peak_cd));
  if (are_alike(profiles[0], profiles[1], k_line_share * peak_cd)) {
    profiles.pop_back();
    profiles[0].name = "C0 – C180 and C90 – C270 alike";
  }
  return profiles;
}

double farthest_deg(const std::vector<IntensityProfile>& profiles, double share) {
  double farthest = 0;
  see_lit(profiles, share, [&](double angle_deg) { farthest = std::max(farthest, angle_deg); });
  return farthest;
}

double nearest_deg(const std::vector<IntensityProfile>& profiles, double share) {
  double nearest = 180;
  see_lit(profiles, share, [&](double angle_deg) { nearest = std::min(nearest, angle_deg); });
  return nearest;
}

RoundScale round_scale(double top) {
  if (!(top > 0)) return {};
  constexpr int k_most = 5;
  constexpr double k_rounding = 1e-9;
  const double decade = std::pow(10.0, std::floor(std::log10(top / k_most)));
  for (const double factor : {1.0, 2.0, 2.5, 5.0}) {
    const double steps = std::ceil(top / (factor * decade) - k_rounding);
    if (steps <= k_most) return {factor * decade, static_cast<int>(steps)};
  }
  return {10 * decade, static_cast<int>(std::ceil(top / (10 * decade) - k_rounding))};
}

}  // namespace evenlit
