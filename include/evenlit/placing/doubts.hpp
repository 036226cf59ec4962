#pragma once

#include <vector>

#include "evenlit/placing/comparison.hpp"

namespace evenlit {

/// How sure each layout's light is.
///
/// Dark finishes take a second response of the room. Of cans off their places the response to places east, west, north
/// and south tells by how much each point can lose light: along each axis the larger loss, both as the legs of a right
/// triangle, since the loss is all but linear over half an inch; that added up over all cans is a bound, as if each can
/// were off in the worst direction for each figure and each point. A place outside of the room or inside of an
/// obstruction is none. The dead can is for average, minimum and what is wanted each the one that matters most to
/// it. What is left is arithmetic.
///
/// @param rows of `compared` with the same job, photometry and grid
/// @errors grid points times places are more than the largest job has, `k_most_grid_points` times 500
Result<std::vector<LayoutDoubts>> doubts(const Job& job, const std::vector<PhotometricFile>& photometry,
                                         const Grid& grid, const std::vector<ComparedLayout>& rows, const Place& place,
                                         const Progress& progress = {});

}  // namespace evenlit
