#pragma once

#include <Eigen/Core>

#include "exchange.hpp"

namespace evenlit {

/// Patches x luminaires: lx that arrive or lm/m2 that leave.
using PatchLight = Eigen::Matrix<float, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// Exitance of every patch, all bounces counted: M = rho (direct + F M).
///
/// Solved by conjugate gradients on the symmetric form until the residual of each column is below 1e-6 of its right
/// side.
///
/// @param direct_lx straight from the luminaires, mean over the patch
/// @return lm/m2
/// @source Goral, Torrance, Greenberg, Battaile, "Modeling the interaction of light between diffuse surfaces" (1984),
///         equation 5
PatchLight exitance(const Mesh& mesh, ExchangeAreas areas, const PatchLight& direct_lx);

}  // namespace evenlit
