#include "atlas.hpp"

#include <algorithm>
#include <cassert>
#include <functional>

namespace evenlit {

int lay_out(std::vector<AtlasCell>& cells, int width) {
  std::vector<AtlasCell*> by_height;
  for (AtlasCell& cell : cells) by_height.push_back(&cell);
  std::ranges::stable_sort(by_height, std::greater<>{}, &AtlasCell::rows);
  int column = 0;
  int shelf = 0;
  int next_shelf = 0;
  for (AtlasCell* cell : by_height) {
    assert(cell->columns <= width);
    if (column + cell->columns > width) {
      column = 0;
      shelf = next_shelf;
    }
    cell->column = column;
    cell->row = shelf;
    column += cell->columns;
    next_shelf = std::max(next_shelf, shelf + cell->rows);
  }
  return next_shelf;
}

}  // namespace evenlit
