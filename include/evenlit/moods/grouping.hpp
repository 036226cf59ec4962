#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "evenlit/moods/levels.hpp"

namespace evenlit {

/// Cans that may share dimmers, and the moods that they are for.
struct GroupingProblem {
  Eigen::MatrixXd light_lx;  ///< average on each area, in rows, of each can at full level, in columns
  Eigen::VectorXd base_lx;   ///< of what is not dimmed
  Eigen::VectorXd watts;     ///< of each can at full level
  Eigen::VectorXd least;     ///< light output below which a can goes out, a fraction
  std::vector<std::vector<LevelWish>> moods;
};

/// Which cans are on which dimmer, and what that does for the moods.
struct Grouping {
  std::vector<int> dimmer_of;       ///< of each can, from 0 in the order of the cans
  double misfit = 0;                ///< of all moods together
  std::vector<SolvedLevels> moods;  ///< levels of the cans
  bool is_exact = true;             ///< false where so many were tried that the search was ended
};

/// The moods' best levels where the cans are on given dimmers.
Grouping judged_grouping(const GroupingProblem& problem, const std::vector<int>& dimmer_of);

/// Which cans to put on so many dimmers so that the moods together come nearest to what is wished: branch and bound
/// over which can joins which. What is left open is bounded by giving every can not yet on a dimmer one of its own. To
/// 1e-6 of the square of a wish, which the preference for less power costs (`solved_levels`).
///
/// @param dimmers at least 1
Grouping best_grouping(const GroupingProblem& problem, int dimmers);

/// A circuit that becomes two.
struct Split {
  int dimmer = 0;            ///< the one that is split
  std::vector<int> leaving;  ///< cans that get one of their own
  Grouping grouping;         ///< as it is then
};

/// The split of one dimmer's cans across a straight line, square to x or y, that serves the moods most; empty where no
/// dimmer has two cans or no split does better than `grouping`.
///
/// @param positions_m of the cans on the plan
std::optional<Split> best_split(const GroupingProblem& problem, const Grouping& grouping,
                                const std::vector<Eigen::Vector2d>& positions_m);

}  // namespace evenlit
