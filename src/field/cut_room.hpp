#pragma once

#include "evenlit/room/visibility.hpp"
#include "interreflection.hpp"
#include "mesh.hpp"
#include "node_factors.hpp"
#include "node_light.hpp"

namespace evenlit {

/// Nodes along a patch's side at which later reflections are gathered: they are smoother than the first.
inline constexpr int k_few_order = 2;

/// A room cut into patches, and what these send each other.
struct CutRoom {
  Mesh mesh;
  const Visibility& visibility;
  Nodes nodes = gauss_nodes(mesh.patches, k_order);
  Nodes few_nodes = gauss_nodes(mesh.patches, k_few_order);
  Figures patches = figures_of(mesh, visibility);
  Interreflection interreflection{mesh, exchange_areas(mesh, patches, visibility)};

  /// What is seen of nodes of the room.
  [[nodiscard]] NodeFactors factors(const Nodes& which, const GatherDetail& detail) const {
    return {mesh, patches, which, visibility, detail};
  }
};

}  // namespace evenlit
