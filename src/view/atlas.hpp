#pragma once

#include <vector>

namespace evenlit {

/// A rectangle of texels, from its upper left one.
struct AtlasCell {
  int column = 0;
  int row = 0;
  int columns = 0;
  int rows = 0;
};

/// Lays rectangles onto shelves, the highest first, none over another.
///
/// @param cells sizes are kept, places are set; none wider than `width`
/// @return rows that are used
int lay_out(std::vector<AtlasCell>& cells, int width);

}  // namespace evenlit
