#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "evenlit/room/scene.hpp"
#include "evenlit/room/visibility.hpp"

namespace evenlit {

/// How much less a glaring source disturbs away from the line of sight: 1 on it, more elsewhere.
///
/// @param from_vertical_deg 0...90, between the vertical and the plane of the source and the line of sight
/// @param off_sight_deg     0...90, between the line of sight and the line to the source
/// @source R. E. Levin, "Position index in VCP calculations", Journal of the IES 4 (1975), a formula for Guth's index
///         (coefficients from memory). CIE 117:1995 reads a table instead: up to some 12 % apart.
double position_index(double from_vertical_deg, double off_sight_deg);

/// An eye and where it looks.
struct Sightline {
  Eigen::Vector3d eye_m;
  Eigen::Vector3d direction;  ///< unit
};

/// A luminaire that an eye sees before it.
struct GlareSource {
  int luminaire = 0;           ///< index into the scene's
  double luminance_cd_m2 = 0;  ///< of its opening toward the eye, on average
  double solid_angle_sr = 0;   ///< of as much of the opening as is seen
  double position_index = 1;
  double share = 0;  ///< of all glare; the shares of all sources add up to 1
};

/// Discomfort glare at one eye.
struct Glare {
  double background_cd_m2 = 0;
  std::vector<GlareSource> sources;      ///< those that send light into the eye, in the scene's order
  std::optional<int> worst;              ///< the luminaire with the largest share; empty where none glares
  std::optional<double> unified_rating;  ///< UGR; empty where none glares, or against no background light at all
};

/// Unified glare rating 8 lg(0.25/Lb sum of L^2 w/p^2) at the luminaires' levels.
///
/// What walls and boxes hide does not glare, nor what is beside or behind the eye (90 degrees off the line of sight or
/// more). An opening that shows the eye less than 0.005 m2, a point too, counts as one of 0.005 m2 with the same
/// intensity. Two conventions are our own: a source below the line of sight counts like one beside it at the same
/// angle, and where the eye looks straight up or down, so that no vertical is left, all count as beside. Each
/// luminaire counts at its centre, so one that is large against its distance is only estimated.
///
/// Scale: steps of 3 from 13 to 28. Nothing limits it in homes: advice only.
///
/// @param indirect_lx at the eye, on a plane square to the line of sight: `Response::indirect_lx` of such a receiver
/// @source CIE 117:1995 (formula from memory); CIE 147:2002 (small sources, from memory)
Glare glare(const Scene& scene, const Visibility& visibility, const Sightline& sight, double indirect_lx);

}  // namespace evenlit
