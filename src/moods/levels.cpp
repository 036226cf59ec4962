#include "evenlit/moods/levels.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "evenlit/field/bounded_least_squares.hpp"

namespace evenlit {
namespace {

using Eigen::Index;
using Eigen::VectorXd;
using Kind = LevelWish::Kind;

/// One wish as an equation: row . levels = value, of which it may have more (slack 1), or less (-1).
struct Equation {
  Eigen::RowVectorXd row;
  double value = 0;
  int slack = 0;
};

Equation equation_of(const LevelProblem& problem, const LevelWish& wish) {
  const double root = std::sqrt(wish.weight);
  if (wish.kind == Kind::ratio) {
    const Eigen::RowVectorXd row = problem.light_lx.row(wish.area) - wish.value * problem.light_lx.row(wish.other);
    const double base = problem.base_lx[wish.area] - wish.value * problem.base_lx[wish.other];
    const double scale = problem.light_lx.row(wish.area).sum() + problem.base_lx[wish.area];
    if (scale == 0) return {Eigen::RowVectorXd::Zero(row.size()), 0, 0};
    return {root / scale * row, -root / scale * base, 0};
  }
  const int slack = wish.kind == Kind::at_least ? 1 : wish.kind == Kind::at_most ? -1 : 0;
  return {root / wish.value * problem.light_lx.row(wish.area), root * (1 - problem.base_lx[wish.area] / wish.value),
          slack};
}

/// The range that each circuit's level is confined to.
struct Ranges {
  VectorXd lower;
  VectorXd upper;
};

/// Circuits that have a level of their own.
std::vector<Index> own_levels(const LevelProblem& problem) {
  std::vector<Index> own;
  for (Index i = 0; i < problem.light_lx.cols(); ++i) {
    if (problem.same_as[static_cast<std::size_t>(i)] == i) own.push_back(i);
  }
  return own;
}

/// The least squares over levels in ranges, without regard to what is too dim to be had.
VectorXd levels_within(const LevelProblem& problem, const Ranges& ranges) {
  const std::vector<Index> own = own_levels(problem);
  const Index circuits = problem.light_lx.cols();
  const auto variables = static_cast<Index>(own.size());
  Eigen::MatrixXd level_of = Eigen::MatrixXd::Zero(circuits, variables);
  for (Index i = 0; i < circuits; ++i) {
    const auto leader = std::ranges::find(own, Index{problem.same_as[static_cast<std::size_t>(i)]}) - own.begin();
    level_of(i, leader) = 1;
  }
  std::vector<Equation> equations;
  Index slacks = 0;
  for (const LevelWish& wish : problem.wishes) {
    equations.push_back(equation_of(problem, wish));
    slacks += std::abs(equations.back().slack);
  }
  const auto wishes = static_cast<Index>(equations.size());
  Eigen::MatrixXd a = Eigen::MatrixXd::Zero(wishes + variables, variables + slacks);
  VectorXd b = VectorXd::Zero(wishes + variables);
  VectorXd lower = VectorXd::Zero(variables + slacks);
  VectorXd upper = VectorXd::Constant(variables + slacks, std::numeric_limits<double>::infinity());
  Index slack = variables;
  for (Index i = 0; i < wishes; ++i) {
    const Equation& equation = equations[static_cast<std::size_t>(i)];
    a.row(i).head(variables) = equation.row * level_of;
    b[i] = equation.value;
    if (equation.slack != 0) a(i, slack++) = -equation.slack;
  }
  // A slight wish for less power, so that there is one best choice.
  constexpr double k_preference = 1e-3;
  const VectorXd watts = level_of.transpose() * problem.watts;
  const double most_watts = watts.maxCoeff();
  for (Index k = 0; k < variables; ++k) {
    a(wishes + k, k) = k_preference * (most_watts > 0 ? 0.1 + 0.9 * watts[k] / most_watts : 1) /
                       std::sqrt(static_cast<double>(variables));
    lower[k] = ranges.lower[own[static_cast<std::size_t>(k)]];
    upper[k] = ranges.upper[own[static_cast<std::size_t>(k)]];
  }
  return level_of * bounded_least_squares(a, b, lower, upper).head(variables);
}

class LevelSearch {
 public:
  explicit LevelSearch(const LevelProblem& problem) : problem_(problem) {}

  [[nodiscard]] SolvedLevels best() {
    Ranges ranges{VectorXd::Zero(problem_.light_lx.cols()), problem_.most};
    for (Index i = 0; i < ranges.upper.size(); ++i) {
      if (problem_.is_off[static_cast<std::size_t>(i)] != 0) ranges.upper[i] = 0;
    }
    // Circuits of one level share the narrowest of their ranges.
    for (Index i = 0; i < ranges.upper.size(); ++i) {
      const int leader = problem_.same_as[static_cast<std::size_t>(i)];
      ranges.upper[leader] = std::min(ranges.upper[leader], ranges.upper[i]);
    }
    branch(ranges);
    return *best_;
  }

 private:
  /// The least that a circuit and those of its level can give.
  [[nodiscard]] double least_of(Index own) const {
    double least = 0;
    for (Index i = 0; i < problem_.least.size(); ++i) {
      if (problem_.same_as[static_cast<std::size_t>(i)] == own) least = std::max(least, problem_.least[i]);
    }
    return least;
  }

  void branch(const Ranges& ranges) {
    const SolvedLevels solved = judged_levels(problem_, levels_within(problem_, ranges));
    if (best_ && solved.misfit >= best_->misfit) return;
    for (const Index own : own_levels(problem_)) {
      const double level = solved.levels[own];
      const double least = least_of(own);
      if (level <= 0 || level >= least) continue;
      Ranges off = ranges;
      off.upper[own] = 0;
      branch(off);
      if (ranges.upper[own] < least) return;
      Ranges on = ranges;
      on.lower[own] = least;
      branch(on);
      return;
    }
    best_ = solved;
  }

  const LevelProblem& problem_;
  std::optional<SolvedLevels> best_;
};

}  // namespace

WishResult wish_result(const LevelWish& wish, double has) {
  if (std::isnan(has)) has = 0;
  const double share = has / wish.value - 1;
  if (wish.kind == Kind::at_least) return {has, std::min(share, 0.0)};
  if (wish.kind == Kind::at_most) return {has, std::max(share, 0.0)};
  return {has, share};
}

SolvedLevels judged_levels(const LevelProblem& problem, const VectorXd& levels) {
  SolvedLevels judged{.levels = levels};
  const VectorXd light_lx = problem.base_lx + problem.light_lx * levels;
  for (const LevelWish& wish : problem.wishes) {
    const bool is_ratio = wish.kind == Kind::ratio;
    const double has = is_ratio ? light_lx[wish.area] / light_lx[wish.other] : light_lx[wish.area];
    judged.results.push_back(wish_result(wish, has));
    const Equation equation = equation_of(problem, wish);
    const double residual = equation.row.dot(levels) - equation.value;
    const double counted = equation.slack > 0   ? std::min(residual, 0.0)
                           : equation.slack < 0 ? std::max(residual, 0.0)
                                                : residual;
    judged.misfit += counted * counted;
  }
  return judged;
}

SolvedLevels solved_levels(const LevelProblem& problem) { return LevelSearch(problem).best(); }

}  // namespace evenlit
