#pragma once

#include <Eigen/Core>
#include <numbers>

#include "mesh.hpp"

namespace evenlit {

/// A facet that collects light: where it is, which way it faces.
struct Facet {
  float x, y, z;
  float nx, ny, nz;
};

inline Facet facet(const Eigen::Vector3d& point, const Eigen::Vector3d& normal) {
  const Eigen::Vector3f p = point.cast<float>();
  const Eigen::Vector3f n = normal.cast<float>();
  return {p.x(), p.y(), p.z(), n.x(), n.y(), n.z()};
}

/// Configuration factors of small diffuse elements seen from a facet: out[k] = cos cos' area / (pi r^2) for the nodes
/// begin ... end - 1, all with the normal `source`, 0 behind either plane.
///
/// @param out indexed from 0 for the node `begin`
void point_kernel(const Facet& facet, const Nodes& nodes, int begin, int end, const Eigen::Vector3f& source,
                  float* out);

}  // namespace evenlit
