#pragma once

#include <vector>

#include "evenlit/base/polygon.hpp"
#include "evenlit/drawing/drawing.hpp"

namespace evenlit {

struct Disc {
  Eigen::Vector2d centre;
  double radius = 0;
};

/// The discs that a line of text covers, its halo included.
std::vector<Disc> discs_of(const Text& text);

/// Discs that together lie on a figure, for labels to keep off.
std::vector<Disc> discs_on(const Polygon& figure);

/// Keeps marks and labels on a plan from lying over one another.
class FreeSpace {
 public:
  /// @param outline on the sheet, within which everything must stay
  explicit FreeSpace(Polygon outline) : outline_(std::move(outline)) {}

  bool is_free(const std::vector<Disc>& discs) const;

  void take(const std::vector<Disc>& discs) { taken_.insert(taken_.end(), discs.begin(), discs.end()); }

 private:
  Polygon outline_;
  std::vector<Disc> taken_;
};

}  // namespace evenlit
