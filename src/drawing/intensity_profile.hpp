#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/photometry/beam.hpp"
#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// A direction of a plane, counted from straight down and positive on the C side, with its intensity.
struct ProfilePoint {
  double angle_deg = 0;
  double candela = 0;
};

/// The intensity in a plane C / C+180.
struct IntensityProfile {
  double c_deg = 0;
  std::string name;
  std::vector<ProfilePoint> points;  ///< from -180 to 180 degrees, ascending
  std::optional<BeamEdges> beam;     ///< directions of half the peak
  std::optional<BeamEdges> field;    ///< of a tenth
};

/// Profiles of the planes C 0 and C 90; only the first where the two are nowhere farther apart than `k_line_share`.
std::vector<IntensityProfile> intensity_profiles(const IntensityDistribution& distribution);

/// What a line in a diagram hides by its own width, as a share of the peak.
inline constexpr double k_line_share = 0.005;

/// The largest angle from straight down, at most 180, that still has more than `share` of the peak in one of them.
double farthest_deg(const std::vector<IntensityProfile>& profiles, double share);

/// The smallest such angle, at least 0; 180 where there is none.
double nearest_deg(const std::vector<IntensityProfile>& profiles, double share);

/// A scale from zero on in three to five equal steps of a round size.
struct RoundScale {
  double step = 1;
  int steps = 1;

  [[nodiscard]] double top() const { return step * steps; }
};

/// The shortest that reaches `top`; one step of 1 where that is 0.
RoundScale round_scale(double top);

}  // namespace evenlit
