#pragma once

#include <Eigen/Core>
#include <vector>

#include "evenlit/field/response.hpp"
#include "evenlit/room/visibility.hpp"
#include "interreflection.hpp"
#include "mesh.hpp"

namespace evenlit {

/// Light of the room's surfaces on receivers, lx: the sum over all Gauss points of exitance times configuration factor,
/// patches near a receiver taken cell by cell with the exact factor.
///
/// @param order of the Gauss rule that `nodes` holds
/// @param node_exitance_lm_m2 nodes x luminaires
/// @return receivers x luminaires
Eigen::MatrixXd gathered(const Mesh& mesh, const Nodes& nodes, int order, const PatchLight& node_exitance_lm_m2,
                         const Visibility& visibility, const std::vector<Receiver>& receivers);

}  // namespace evenlit
