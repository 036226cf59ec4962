#pragma once

#include <Eigen/Core>

#include "exchange.hpp"

namespace evenlit {

/// Patches x luminaires: lx that arrive or lm/m2 that leave.
using PatchLight = Eigen::Matrix<float, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// All that the surfaces of a room send each other: M = rho (direct + F M).
///
/// Solved by conjugate gradients (Hestenes and Stiefel, 1952) on the symmetric form until the residual of each column
/// is below 1e-6 of its right side.
///
/// @source Goral, Torrance, Greenberg, Battaile, "Modeling the interaction of light between diffuse surfaces" (1984),
///         equation 5
class Interreflection {
 public:
  Interreflection(const Mesh& mesh, ExchangeAreas areas);

  /// Exitance of every patch, all bounces counted, lm/m2.
  ///
  /// @param direct_lx straight from the luminaires, mean over the patch
  [[nodiscard]] PatchLight exitance(const PatchLight& direct_lx) const;

  /// The transposed: what the light straight from luminaires on each patch adds to a sum over all patches' exitance.
  ///
  /// @param weights of the patches' exitance in such sums, patches x sums
  /// @return weights of the patches' direct light in the same sums
  [[nodiscard]] PatchLight weights_of_direct(const PatchLight& weights) const;

 private:
  ExchangeAreas coupling_;       ///< sqrt(rho / A) S sqrt(rho / A) for exchange areas S
  Eigen::ArrayXf from_coupled_;  ///< sqrt(rho / A)
  Eigen::ArrayXf to_coupled_;    ///< sqrt(rho A)
};

}  // namespace evenlit
