#pragma once

#include <Eigen/Core>

#include "interreflection.hpp"
#include "mesh.hpp"

namespace evenlit {

/// Light kept at many nodes of each patch and at few, carried from the one to the other.
class Resampling {
 public:
  /// @param many, few of the same patches, of orders of which `few` is the lower
  Resampling(const Nodes& many, const Nodes& few);

  /// Values at the many nodes of what goes evenly through those at the few: rows are nodes.
  [[nodiscard]] PatchLight refined(const PatchLight& at_few) const;

  /// Values at the few nodes that add up, with any weights that `refined` can follow, to what those at the many do.
  [[nodiscard]] PatchLight condensed(const PatchLight& at_many) const;

  /// The two transposed: weights of values at the few nodes, where the many nodes' weights are given, and the other
  /// way.
  [[nodiscard]] PatchLight weights_of_few(const PatchLight& of_many) const;
  [[nodiscard]] PatchLight weights_of_many(const PatchLight& of_few) const;

 private:
  Eigen::MatrixXf many_from_few_;  ///< of one patch
  Eigen::VectorXf many_area_m2_;
  Eigen::VectorXf few_area_m2_;
};

}  // namespace evenlit
