#pragma once

#include "interreflection.hpp"
#include "mesh.hpp"

namespace evenlit {

// Rows of nodes to rows of patches and back, for any number of columns.

/// rho x what patches, or nodes, get.
///
/// @param light rows of all patches, or of as many nodes on each
PatchLight reflected(const Mesh& mesh, const PatchLight& light);

/// Each patch's mean over its area.
PatchLight means_over_patches(const Nodes& nodes, const PatchLight& at_nodes);

/// The transposed of that: weights of patches' means as weights of what nodes get.
PatchLight weights_of_means(const Mesh& mesh, const Nodes& nodes, const PatchLight& of_patches);

/// A value of each patch at all of its nodes.
PatchLight spread_over_nodes(const Nodes& nodes, const PatchLight& of_patches);

/// The transposed of that: each patch's rows added up.
PatchLight sums_over_patches(const Nodes& nodes, const PatchLight& of_nodes);

}  // namespace evenlit
