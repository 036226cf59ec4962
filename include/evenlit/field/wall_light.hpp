#pragma once

#include <Eigen/Core>
#include <vector>

#include "evenlit/base/progress.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/room/scene.hpp"
#include "evenlit/room/wall_grid.hpp"

namespace evenlit {

/// The light on a wall at the luminaires' levels.
struct WallLight {
  WallGrid grid;
  Eigen::VectorXd total_lx;  ///< one a point of the lattice, >= 0
};

/// The light on every wall, in the order of `wall_grids`. What comes straight from the luminaires is computed at every
/// point. What the room reflects is smooth: it is computed at one point of each block of `k_wall_block` x
/// `k_wall_block` cells, the one nearest to its middle, and is linear between the middles of blocks.
///
/// @param room of the scene's job
std::vector<WallLight> wall_light(const Shape& room, const Scene& scene, std::vector<WallGrid> grids,
                                  const Progress& progress = {});

}  // namespace evenlit
