#pragma once

#include <vector>

#include "mesh.hpp"

namespace evenlit {

/// Where lines of sight to a patch end: a raster of `lines` x `lines` in the middle of equal parts of each cell that a
/// Gauss point stands for, cell by cell.
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
