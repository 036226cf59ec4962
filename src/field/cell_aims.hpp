#pragma once

#include <vector>

#include "mesh.hpp"

namespace evenlit {

/// Where lines of sight to a patch end: one in each of `lines` x `lines` equal parts of every cell that a Gauss point
/// stands for: the first of every cell, the second of every cell, ... No two in a cell lie on one line along its sides,
/// so that the edge of a shadow along them, which is the usual one, moves over them one after the other (as in K. Chiu,
/// P. Shirley, C. Wang, "Multi-jittered sampling", Graphics Gems IV, 1994, but without chance).
class CellAims {
 public:
  /// @param order Gauss points along a side of the patch
  CellAims(int order, int lines);

  [[nodiscard]] int per_cell() const { return per_cell_; }
  [[nodiscard]] int per_patch() const { return static_cast<int>(u_.size()); }

  /// @param x, y, z `per_patch` coordinates
  void place(const Quad& quad, float* x, float* y, float* z) const;

  /// The mean of what was found at the aims of each cell.
  ///
  /// @param shares one a cell
  void average(const float* at_aims, float* shares) const;

 private:
  int per_cell_;
  std::vector<float> u_, v_;
};

}  // namespace evenlit
