#pragma once

#include <Eigen/Core>

#include "interreflection.hpp"
#include "node_factors.hpp"

namespace evenlit {

/// The same steps as a response takes from the luminaires' light to the receivers' (`Response`), as one matrix for each
/// of its tables: what 1 lx straight from a luminaire at each node adds at each receiver. Receivers x nodes, lx / lx.
/// Worth its price where luminaires outnumber receivers: any luminaire's light is then a product with its light on
/// nodes.
struct Transposed {
  NodeWeights indirect;
  NodeWeights first_change;
  NodeWeights second_change;
  NodeWeights uncertain;  ///< with later reflections by patch; no columns where nothing may hide
  Eigen::ArrayXf missed;  ///< one a receiver
};

/// @param of_nodes, on_nodes         what the nodes see of each other
/// @param of_receivers, on_receivers what receivers see of the nodes
Transposed transposed(const Mesh& mesh, const Nodes& nodes, const Interreflection& interreflection,
                      const NodeFactors& of_nodes, const Lookout& on_nodes, const NodeFactors& of_receivers,
                      const Lookout& on_receivers);

}  // namespace evenlit
