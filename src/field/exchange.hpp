#pragma once

#include <Eigen/Core>

#include "evenlit/room/visibility.hpp"
#include "mesh.hpp"

namespace evenlit {

/// Patches x patches, m2: A_i F_ij, symmetric.
using ExchangeAreas = Eigen::Matrix<float, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// Exchange areas of all patches of a closed room. Near pairs exactly, far ones by 2 x 2 Gauss points on both patches,
/// what walls hide by sampling the same points; then scaled symmetrically so that every patch sends out all that it
/// should: the sum of row i is A_i.
///
/// @param patches of the mesh, as the visibility sees them
ExchangeAreas exchange_areas(const Mesh& mesh, const Figures& patches, const Visibility& visibility);

inline ExchangeAreas exchange_areas(const Mesh& mesh, const Visibility& visibility) {
  return exchange_areas(mesh, figures_of(mesh, visibility), visibility);
}

}  // namespace evenlit
