#pragma once

#include <vector>

namespace evenlit {

/// Gauss-Legendre rule on [0, 1]: exact for polynomials of degree 2n - 1; weights add up to 1.
struct GaussRule {
  std::vector<double> nodes;  ///< ascending
  std::vector<double> weights;
};

/// @param points 1...16
const GaussRule& gauss_rule(int points);

}  // namespace evenlit
