#pragma once

#include <string>
#include <vector>

#include "evenlit/base/polygon.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/room/grid.hpp"
#include "evenlit/room/receiver.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit {

/// A part of a wall, in the coordinates of `job/walls.hpp`, and what is there.
struct WallPart {
  std::string name;
  Polygon outline_m;
};

/// A luminaire before a wall.
struct LuminaireBefore {
  int luminaire = 0;      ///< index
  double along_m = 0;     ///< x on the wall
  double distance_m = 0;  ///< from the wall
};

/// A wall seen from inside the room, with the points at which its light is counted: centres of the equal cells into
/// which its bounding rectangle is divided, as far as they are on the wall and no box covers them.
struct WallGrid {
  int wall = 0;
  Polygon outline_m;
  std::vector<WallPart> areas;    ///< doors, windows and the like in the job's order, a later one over an earlier one
  std::vector<WallPart> covered;  ///< by boxes; may overlap
  std::vector<LuminaireBefore> luminaires;  ///< from left to right: those that stand before the wall, no other wall
                                            ///< between, and behind no other that is before the same place
  Lattice lattice;
};

/// Close enough for the scallops of cans near a wall.
inline constexpr double k_wall_spacing_m = 0.05;

/// Cells on all walls together; where there would be more they are wider.
inline constexpr int k_most_wall_cells = 30'000;

/// Columns and rows of a wall's lattice are multiples of this, so that it divides into blocks.
inline constexpr int k_wall_block = 3;

/// Every wall, in the order in which one sees them turning round to the right: each stands at the right end of the one
/// before, the plan's first one first.
///
/// @param scene of the job
std::vector<WallGrid> wall_grids(const Job& job, const Scene& scene);

/// One receiver at each of some points of a wall.
std::vector<Receiver> receivers_on(const Shape& room, int wall, const std::vector<Eigen::Vector2d>& points_m);

}  // namespace evenlit
