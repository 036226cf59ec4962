#pragma once

#include <Eigen/Core>

#include "exchange.hpp"

namespace evenlit {

/// Patches x luminaires: lx that arrive or lm/m2 that leave.
using PatchLight = Eigen::Matrix<float, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// All that the surfaces of a room send each other: M = m + rho F M, where m is sent out first.
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
  /// @param first_lm_m2 what each sends out first: 0 where a surface is black
  [[nodiscard]] PatchLight all_of(const PatchLight& first_lm_m2) const;

  /// The transposed: what each patch's first exitance adds to sums over all patches' exitance.
  ///
  /// @param weights of the patches' exitance in such sums, patches x sums
  [[nodiscard]] PatchLight weights_of_first(const PatchLight& weights) const;

 private:
  ExchangeAreas coupling_;  ///< sqrt(rho / A) S sqrt(rho / A) for exchange areas S
  Eigen::ArrayXf scale_;    ///< sqrt(rho / A)
};

}  // namespace evenlit
