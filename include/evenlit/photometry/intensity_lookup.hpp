#pragma once

#include <Eigen/Core>
#include <vector>

#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// Finds where a value lies among ascending knots without searching: the range is divided into equal buckets, each of
/// which knows the first interval that reaches into it.
class KnotFinder {
 public:
  struct Interval {
    int below = 0;        ///< between knots `below` and `below + 1`
    double fraction = 0;  ///< of the way
  };

  /// @param knots ascending, at least two
  explicit KnotFinder(const std::vector<double>& knots);

  /// @param value within the first and the last knot
  [[nodiscard]] Interval at(double value) const;

 private:
  std::vector<double> knots_;
  std::vector<double> inverse_widths_;
  std::vector<int> first_of_bucket_;
  double buckets_per_unit_;
};

/// `intensity_toward` prepared for many directions: the same numbers up to rounding, several times as fast.
class IntensityLookup {
 public:
  explicit IntensityLookup(const IntensityDistribution& distribution);

  /// @param direction unit, in the luminaire's frame
  /// @return cd
  [[nodiscard]] double toward(const Eigen::Vector3d& direction) const;

 private:
  KnotFinder gamma_deg_;
  KnotFinder c_deg_;
  double first_gamma_deg_;
  double last_gamma_deg_;
  bool is_rotational_;
  Eigen::ArrayXXd candela_;
};

}  // namespace evenlit
