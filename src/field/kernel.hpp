#pragma once

#include <Eigen/Core>

#include "mesh.hpp"

namespace evenlit {

/// A facet that collects light: where it is, which way it faces.
struct Facet {
  Eigen::Vector3f point;
  Eigen::Vector3f normal;
};

/// Configuration factors of small diffuse elements seen from a facet: out[k] = cos cos' area / (pi r^2) for the nodes
/// begin ... end - 1, 0 behind either plane.
///
/// @param out indexed from 0 for the node `begin`
void point_kernel(const Facet& facet, const Nodes& nodes, int begin, int end, float* out);

}  // namespace evenlit
