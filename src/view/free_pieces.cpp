#include "free_pieces.hpp"

#include <algorithm>

namespace evenlit {

std::vector<Trapezoid> free_pieces(const std::vector<Outline>& outlines, const FaceFrame& frame) {
  std::vector<Polygon> flat_outlines;
  for (const Outline& outline : outlines) {
    Polygon& flat = flat_outlines.emplace_back();
    for (const Eigen::Vector3d& corner : outline) flat.push_back(frame.flat(corner));
  }
  return trapezoids(flat_outlines);
}

double width_m(const Trapezoid& piece) { return std::max((piece[1] - piece[0]).norm(), (piece[2] - piece[3]).norm()); }

double height_m(const Trapezoid& piece) { return piece[3].y() - piece[0].y(); }

std::vector<Trapezoid> without_slivers(std::vector<Trapezoid> pieces) {
  constexpr double k_narrowest_m = 1e-3;
  const auto is_narrow = [](const Trapezoid& piece) {
    return std::min(width_m(piece), height_m(piece)) < k_narrowest_m;
  };
  if (!std::ranges::all_of(pieces, is_narrow)) std::erase_if(pieces, is_narrow);
  return pieces;
}

}  // namespace evenlit
