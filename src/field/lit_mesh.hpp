#pragma once

#include <vector>

#include "evenlit/field/direct.hpp"
#include "evenlit/field/response.hpp"
#include "interreflection.hpp"
#include "mesh.hpp"
#include "node_light.hpp"

namespace evenlit {

/// A room cut into patches, and the light straight from the luminaires on them.
struct LitMesh {
  Mesh mesh;
  PatchLight direct_lx;  ///< nodes of order `k_order` x luminaires
};

/// Cuts the room, finer where light falls unevenly: below a luminaire that is near, in a narrow beam, at the edge of a
/// shadow.
LitMesh lit_mesh(const Scene& scene, const std::vector<DirectLight>& lights, const Visibility& visibility,
                 const MeshDetail& detail);

}  // namespace evenlit
