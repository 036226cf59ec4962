#pragma once

#include <vector>

#include "evenlit/photometry/photometric_file.hpp"

namespace evenlit {

/// Pieces of an opening that reaches from -1 to 1 along both of its axes: where they are, and their shares of its
/// light.
struct OpeningPieces {
  std::vector<float> u, v, share;

  [[nodiscard]] int size() const { return static_cast<int>(u.size()); }
};

inline constexpr int k_finest_opening = 12;

/// A disc by n Gauss points in the square of the radius and 4 n equal steps round the circle, both exact for
/// polynomials up to the degree 4 n - 1; a rectangle by a tensor Gauss rule.
///
/// @param fineness 0 (one point) ... k_finest_opening
const OpeningPieces& opening_pieces(Opening::Shape shape, int fineness);

}  // namespace evenlit
