#pragma once

#include <Eigen/Core>
#include <memory>

#include "evenlit/photometry/intensity_lookup.hpp"
#include "evenlit/room/scene.hpp"
#include "evenlit/room/visibility.hpp"

namespace evenlit {

/// How finely a luminous opening is divided. An opening of largest size s is one point beyond `point_beyond` s; nearer,
/// it is divided so that the pieces are small against the distance.
///
/// The point formula reads high by (s / 2d)^2 on the axis of a diffuse disc: 1 % at the five sizes of the usual rule
/// (ANSI/IES LS-1, "inverse-square law", note), 0.04 % at 25. In the dark fringe of a narrow tabulated beam a point's
/// own value may be off by percents where the lit middle is not: up to 0.05 % of the peak.
struct OpeningDetail {
  double point_beyond = 25;
};

/// The light straight from a luminaire at full level.
class DirectLight {
 public:
  /// @param intensity of the luminaire's distribution
  DirectLight(const Luminaire& luminaire, std::shared_ptr<const IntensityLookup> intensity, OpeningDetail detail = {});

  /// Illuminances of plane facets, lx: the sum over the pieces of the opening of I(direction) cos(incidence) / d^2,
  /// each piece sending its share of the whole distribution. Pieces that a wall hides add nothing; nor does a point in
  /// the opening itself.
  ///
  /// @param points_m, normals (unit) 3 x facets
  [[nodiscard]] Eigen::ArrayXd illuminances(const Visibility& visibility, const Eigen::Matrix3Xd& points_m,
                                            const Eigen::Matrix3Xd& normals) const;

 private:
  class Rays;

  Luminaire luminaire_;
  std::shared_ptr<const IntensityLookup> intensity_;
  Eigen::Matrix3d table_from_room_;
  double size_m_;                            ///< largest size of the opening
  double point_beyond_m_;                    ///< receivers at least this far away see the opening as one point
  Eigen::Matrix<double, 3, 2> half_axes_m_;  ///< from the centre to the opening's edge along C 0 and C 90
};

}  // namespace evenlit
