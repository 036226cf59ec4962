#pragma once

#include <Eigen/Core>

#include "interreflection.hpp"
#include "node_factors.hpp"

namespace evenlit {

struct Gathered {
  PatchLight light_lx;      ///< receivers x columns
  PatchLight uncertain_lx;  ///< what of it lines of sight leave open, of as many columns as was asked for
  Eigen::ArrayXf missed;    ///< by how much the factors of each receiver missed 1
};

/// Light of the room's surfaces on receivers: the sum over all nodes of exitance times configuration factor.
///
/// @param exitance_lm_m2    nodes x columns
/// @param uncertain_columns the first so many columns are to be told what is uncertain in them
Gathered gathered(const NodeFactors& factors, const Lookout& lookout, const PatchLight& exitance_lm_m2,
                  int uncertain_columns = 0);

}  // namespace evenlit
