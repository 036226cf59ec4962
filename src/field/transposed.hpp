#pragma once

#include <Eigen/Core>

#include "cut_room.hpp"

namespace evenlit {

/// The same steps as a response takes from the luminaires' light to the receivers' (`Response`), as one matrix for each
/// of its tables: what 1 lx straight from a luminaire at each node, or all over each patch, adds at each receiver.
/// Receivers x nodes or patches, lx / lx.
/// Worth its price where luminaires outnumber receivers: any luminaire's light is then a product with its light on
/// nodes.
struct Transposed {
  NodeWeights indirect;      ///< nodes
  NodeWeights first_change;  ///< nodes
  NodeWeights by_patches;    ///< patches: the indirect light before anything is resolved within patches
  NodeWeights uncertain;     ///< patches; no columns where nothing may hide
  Eigen::ArrayXf missed;     ///< one a receiver
};

/// @param receivers a viewpoint each
Transposed transposed(const CutRoom& room, const Lookout& receivers, const GatherDetail& detail);

}  // namespace evenlit
