#include "gauss.hpp"

#include <array>
#include <cmath>
#include <numbers>

namespace evenlit {
namespace {

constexpr int k_most_points = 16;

struct Legendre {
  double value;
  double slope;
};

/// P_n(x) and its derivative by the three-term recurrence.
Legendre legendre(int n, double x) {
  double before = 1;
  double value = x;
  for (int k = 2; k <= n; ++k) {
    const double next = ((2 * k - 1) * x * value - (k - 1) * before) / k;
    before = value;
    value = next;
  }
  return {value, n * (x * value - before) / (x * x - 1)};
}

/// Nodes by Newton's method from the asymptotic guess cos(pi (k + 3/4) / (n + 1/2)), Abramowitz and Stegun 22.16.6.
GaussRule make_rule(int n) {
  GaussRule rule{std::vector<double>(n), std::vector<double>(n)};
  for (int k = 0; k < n; ++k) {
    double x = std::cos(std::numbers::pi * (k + 0.75) / (n + 0.5));
    for (int step = 0; step < 6; ++step) {
      const auto [value, slope] = legendre(n, x);
      x -= value / slope;
    }
    const double slope = legendre(n, x).slope;
    rule.nodes[n - 1 - k] = (1 + x) / 2;
    rule.weights[n - 1 - k] = 1 / ((1 - x * x) * slope * slope);
  }
  return rule;
}

}  // namespace

const GaussRule& gauss_rule(int points) {
  static const auto k_rules = [] {
    std::array<GaussRule, k_most_points + 1> rules;
    for (int n = 1; n <= k_most_points; ++n) rules[n] = make_rule(n);
    return rules;
  }();
  return k_rules[points];
}

std::vector<double> lagrange_values(int points, double x) {
  const auto& nodes = gauss_rule(points).nodes;
  std::vector<double> values(nodes.size(), 1);
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    for (std::size_t j = 0; j < nodes.size(); ++j) {
      if (j != i) values[i] *= (x - nodes[j]) / (nodes[i] - nodes[j]);
    }
  }
  return values;
}

std::vector<double> lagrange_values(int points, double u, double v) {
  const std::vector<double> along = lagrange_values(points, u);
  const std::vector<double> across = lagrange_values(points, v);
  std::vector<double> values;
  for (const double of_v : across) {
    for (const double of_u : along) values.push_back(of_u * of_v);
  }
  return values;
}

}  // namespace evenlit
