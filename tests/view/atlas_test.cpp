#include "atlas.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

using namespace evenlit;

TEST_CASE("rectangles are laid out beside each other, whatever their sizes", "[view][property]") {
  constexpr int k_width = 100;
  std::mt19937 random(3);
  for (int trial = 0; trial < 50; ++trial) {
    std::vector<AtlasCell> cells(random() % 60);
    int texels = 0;
    for (AtlasCell& cell : cells) {
      cell.columns = static_cast<int>(random() % (k_width + 1));
      cell.rows = static_cast<int>(random() % 30);
      texels += cell.columns * cell.rows;
    }
    const int rows = lay_out(cells, k_width);
    CHECK(texels <= rows * k_width);
    std::vector<int> taken(static_cast<std::size_t>(k_width) * rows);
    for (const AtlasCell& cell : cells) {
      if (cell.columns == 0 || cell.rows == 0) continue;
      REQUIRE(cell.column >= 0);
      REQUIRE(cell.column + cell.columns <= k_width);
      REQUIRE(cell.row >= 0);
      REQUIRE(cell.row + cell.rows <= rows);
      for (int row = cell.row; row < cell.row + cell.rows; ++row) {
        for (int column = cell.column; column < cell.column + cell.columns; ++column) ++taken[row * k_width + column];
      }
    }
    CHECK(std::ranges::count_if(taken, [](int times) { return times > 1; }) == 0);
  }
}
