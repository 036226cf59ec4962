#include "opening_pieces.hpp"

#include <array>
#include <cmath>
#include <numbers>

#include "gauss.hpp"

namespace evenlit {
namespace {

void add(OpeningPieces& pieces, double u, double v, double share) {
  pieces.u.push_back(static_cast<float>(u));
  pieces.v.push_back(static_cast<float>(v));
  pieces.share.push_back(static_cast<float>(share));
}

OpeningPieces one_point() {
  OpeningPieces pieces;
  add(pieces, 0, 0, 1);
  return pieces;
}

OpeningPieces of_disc(int fineness) {
  const auto& rule = gauss_rule(fineness);
  const int around = 4 * fineness;
  OpeningPieces pieces;
  for (int ring = 0; ring < fineness; ++ring) {
    const double radius = std::sqrt(rule.nodes[ring]);
    for (int step = 0; step < around; ++step) {
      const double angle = 2 * std::numbers::pi * (step + 0.5) / around;
      add(pieces, radius * std::cos(angle), radius * std::sin(angle), rule.weights[ring] / around);
    }
  }
  return pieces;
}

OpeningPieces of_rectangle(int fineness) {
  const int order = fineness + 2;
  const auto& rule = gauss_rule(order);
  OpeningPieces pieces;
  for (int row = 0; row < order; ++row) {
    for (int column = 0; column < order; ++column) {
      add(pieces, 2 * rule.nodes[column] - 1, 2 * rule.nodes[row] - 1, rule.weights[row] * rule.weights[column]);
    }
  }
  return pieces;
}

}  // namespace

const OpeningPieces& opening_pieces(Opening::Shape shape, int fineness) {
  static const auto k_pieces = [] {
    std::array<std::array<OpeningPieces, 2>, k_finest_opening + 1> all;
    all[0] = {one_point(), one_point()};
    for (int i = 1; i <= k_finest_opening; ++i) all[i] = {of_disc(i), of_rectangle(i)};
    return all;
  }();
  return k_pieces[fineness][shape == Opening::Shape::rectangle ? 1 : 0];
}

}  // namespace evenlit
