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

/// Values at x of the polynomials that are 1 at one node of the rule and 0 at all others.
///
/// @source Abramowitz and Stegun, Handbook of Mathematical Functions, 25.2.2
std::vector<double> lagrange_values(int points, double x);

/// The same on the square, of the rule's tensor product: the first coordinate runs fastest.
std::vector<double> lagrange_values(int points, double u, double v);

}  // namespace evenlit
