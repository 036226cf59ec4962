#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "evenlit/room/face.hpp"

namespace evenlit::reference {

using Triangle = std::array<Eigen::Vector3d, 3>;

/// A simple plane polygon as triangles, by cutting off ears.
///
/// @param corners counter-clockwise seen from where `normal` (unit) points
/// @source G. H. Meisters, "Polygons have ears", American Mathematical Monthly 82 (1975)
std::vector<Triangle> triangles(Outline corners, const Eigen::Vector3d& normal);

}  // namespace evenlit::reference
