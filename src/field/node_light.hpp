#pragma once

#include <Eigen/Core>
#include <vector>

#include "evenlit/field/direct.hpp"
#include "evenlit/room/scene.hpp"
#include "evenlit/room/visibility.hpp"
#include "interreflection.hpp"
#include "mesh.hpp"

namespace evenlit {

/// Gauss points along a patch's side, at which light is kept.
inline constexpr int k_order = 3;

/// Light is resolved between nodes down to this share of the unevenness that a patch may have.
inline constexpr double k_resolved = 0.25;

/// Light straight from luminaires at the nodes of patches: nodes x luminaires, lx. Where an obstacle may hide a part of
/// a patch, each node gets the share of the light that its cell sees.
///
/// @param nodes of the patches, of order `k_order`
PatchLight direct_at_nodes(const std::vector<Patch>& patches, const Nodes& nodes,
                           const std::vector<DirectLight>& lights, const Visibility& visibility);

using PatchArray = Eigen::Array<float, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// How luminaires' light falls on patches, patches x luminaires, as the nodes tell.
struct Falls {
  PatchArray lumens;
  PatchArray deviation_lm;  ///< area x the standard deviation of the illuminance
};

Falls falls_on(const Nodes& nodes, const PatchLight& direct_lx);

/// All that patches catch of each luminaire, lm.
Eigen::ArrayXd caught_lumens(const Falls& falls);

/// Resolves uneven light between nodes: where what a patch reflects of a luminaire's light deviates by more than
/// `unevenness` of all that luminaire's light, the patch is cut in four, and again, and what the pieces get is put on
/// the patch's own nodes so that sums over them with any weights that are quadratic across the patch stay what they
/// were. Then what the nodes catch of each luminaire is made all that it sends out.
///
/// @param nodes    of the mesh, of order `k_order`
/// @param light_lx `direct_at_nodes` of the mesh; what it becomes may be negative at single nodes
void resolve(const Scene& scene, const Mesh& mesh, const Nodes& nodes, const std::vector<DirectLight>& lights,
             const Visibility& visibility, double unevenness, PatchLight& light_lx);

}  // namespace evenlit
