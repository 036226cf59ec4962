#pragma once

#include <Eigen/Core>

#include "mesh.hpp"

namespace evenlit {

/// Gauss points a side up to which `near_factors` works.
inline constexpr int k_most_order = 4;

/// Configuration factors of the cells that a patch's Gauss points stand for (`cell_of_node`), exact but for single
/// precision, as a facet sees them, also where cells dip below its horizon. All 0 where it is not in front of the
/// patch.
///
/// @param out order x order, in the order of the patch's nodes
void near_factors(const Eigen::Vector3d& point, const Eigen::Vector3d& facing, const Patch& patch, int order,
                  float* out);

}  // namespace evenlit
