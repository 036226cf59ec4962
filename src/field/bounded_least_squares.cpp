#include "evenlit/field/bounded_least_squares.hpp"

#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

namespace evenlit {
namespace {

using Eigen::Index;
using Eigen::VectorXd;

enum class State { lower, upper, free };

class ActiveSet {
 public:
  ActiveSet(const Eigen::MatrixXd& a, const VectorXd& b, const VectorXd& lower, const VectorXd& upper)
      : a_(a),
        b_(b),
        lower_(lower),
        upper_(upper),
        x_(lower),
        states_(static_cast<std::size_t>(a.cols()), State::lower),
        scales_(a.colwise().norm().transpose()) {}

  [[nodiscard]] VectorXd solution() {
    const Index most_steps = 10 * (a_.cols() + 1);
    std::vector<char> is_stuck(states_.size());
    for (Index step = 0; step < most_steps; ++step) {
      const auto next = to_be_freed(is_stuck);
      if (!next) break;
      const VectorXd before = x_;
      const State was = state(*next);
      state(*next) = State::free;
      settle();
      // Rounding can say that a variable should move where it cannot: it is left where it is until another has moved.
      const bool has_moved = (x_ - before).cwiseAbs().maxCoeff() > 0;
      if (has_moved) {
        std::ranges::fill(is_stuck, 0);
      } else {
        state(*next) = was;
        is_stuck[static_cast<std::size_t>(*next)] = 1;
      }
    }
    return x_;
  }

 private:
  [[nodiscard]] State& state(Index i) { return states_[static_cast<std::size_t>(i)]; }

  /// The variable at a bound whose leaving it lessens the residual most, for its scale.
  [[nodiscard]] std::optional<Index> to_be_freed(const std::vector<char>& is_stuck) {
    const VectorXd residual = b_ - a_ * x_;
    const double least = 1e-12 * (b_.norm() + residual.norm());
    std::optional<Index> best;
    double most = least;
    for (Index i = 0; i < a_.cols(); ++i) {
      if (state(i) == State::free || is_stuck[static_cast<std::size_t>(i)] != 0 || scales_[i] == 0) continue;
      if (lower_[i] == upper_[i]) continue;
      const double pull = a_.col(i).dot(residual) / scales_[i] * (state(i) == State::lower ? 1 : -1);
      if (pull <= most) continue;
      most = pull;
      best = i;
    }
    return best;
  }

  /// Moves the free variables to where the residual is least, or as far as the first bound and on from there.
  void settle() {
    for (Index round = 0; round <= a_.cols(); ++round) {
      const std::vector<Index> free = free_ones();
      if (free.empty()) return;
      const VectorXd target = least_squares(free);
      double part = 1;
      for (Index k = 0; k < target.size(); ++k) {
        const Index i = free[static_cast<std::size_t>(k)];
        const double bound = target[k] < lower_[i] ? lower_[i] : upper_[i];
        if (target[k] >= lower_[i] && target[k] <= upper_[i]) continue;
        part = std::min(part, (bound - x_[i]) / (target[k] - x_[i]));
      }
      for (Index k = 0; k < target.size(); ++k) move(free[static_cast<std::size_t>(k)], target[k], part);
      if (part == 1) return;
    }
  }

  /// Moves one free variable by a part of its way; at a bound it stays there.
  void move(Index i, double target, double part) {
    const bool is_below = target < lower_[i];
    const bool is_above = target > upper_[i];
    if (part == 1) {
      x_[i] = target;
      return;
    }
    const double reach = is_below ? (lower_[i] - x_[i]) / (target - x_[i]) : (upper_[i] - x_[i]) / (target - x_[i]);
    if (is_below && reach <= part) {
      x_[i] = lower_[i];
      state(i) = State::lower;
    } else if (is_above && reach <= part) {
      x_[i] = upper_[i];
      state(i) = State::upper;
    } else {
      x_[i] += part * (target - x_[i]);
    }
  }

  [[nodiscard]] std::vector<Index> free_ones() {
    std::vector<Index> free;
    for (Index i = 0; i < a_.cols(); ++i) {
      if (state(i) == State::free) free.push_back(i);
    }
    return free;
  }

  /// The free variables' values for which the residual is least, the others as they are.
  [[nodiscard]] VectorXd least_squares(const std::vector<Index>& free) const {
    Eigen::MatrixXd columns(a_.rows(), static_cast<Index>(free.size()));
    VectorXd fixed = x_;
    for (Index k = 0; k < columns.cols(); ++k) {
      columns.col(k) = a_.col(free[static_cast<std::size_t>(k)]);
      fixed[free[static_cast<std::size_t>(k)]] = 0;
    }
    return columns.colPivHouseholderQr().solve(b_ - a_ * fixed);
  }

  const Eigen::MatrixXd& a_;
  const VectorXd& b_;
  const VectorXd& lower_;
  const VectorXd& upper_;
  VectorXd x_;
  std::vector<State> states_;
  VectorXd scales_;
};

}  // namespace

VectorXd bounded_least_squares(const Eigen::MatrixXd& a, const VectorXd& b, const VectorXd& lower,
                               const VectorXd& upper) {
  return ActiveSet(a, b, lower, upper).solution();
}

}  // namespace evenlit
