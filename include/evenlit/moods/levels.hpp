#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

namespace evenlit {

/// Something wished of a mood's light.
struct LevelWish {
  enum class Kind {
    at_least,  ///< the area's average, lx
    at_most,   ///< lx
    about,     ///< lx
    ratio      ///< of the area's average to another's
  };

  Kind kind = Kind::about;
  int area = 0;
  int other = 0;     ///< area, of a ratio
  double value = 0;  ///< lx or a ratio, above 0
  double weight = 1;
};

/// Light that dimmers can give, and what is wished of it.
struct LevelProblem {
  Eigen::MatrixXd light_lx;  ///< average on each area, in rows, of each circuit at full level, in columns
  Eigen::VectorXd base_lx;   ///< of the cans that no circuit dims
  Eigen::VectorXd watts;     ///< of each circuit at full level; of levels that give the same light the ones that draw
                             ///< less are taken
  Eigen::VectorXd least;     ///< light output below which a circuit goes out, a fraction; it may also be off
  Eigen::VectorXd most;      ///< output that it does not exceed, a fraction
  std::vector<char> is_off;  ///< circuits that must be off
  std::vector<int> same_as;  ///< of each circuit the one whose level it has: itself, or a lower one that has its own
  std::vector<LevelWish> wishes;
};

struct WishResult {
  double has = 0;     ///< lx, or a ratio; infinite where the other area is dark
  double off_by = 0;  ///< as a share of what is wished: negative where it has too little, positive too much, else 0
};

struct SolvedLevels {
  Eigen::VectorXd levels;           ///< light output of each circuit, a fraction of full
  double misfit = 0;                ///< the sum of weight times the square of `off_by`; of a ratio, what the area has
                                    ///< beyond or below its share of the other's, over what it has at full level
  std::vector<WishResult> results;  ///< one a wish
};

/// The levels that come nearest to all wishes: the sum of weighted squares of what they are off by is least, and among
/// levels that are as good those that draw least. Exact but for that preference, which costs 1e-6 of a wish's square at
/// most; a circuit that would be dimmed to less than it can is tried off and at its least, in all combinations.
///
/// @param problem with as many rows, columns and entries as belong together
SolvedLevels solved_levels(const LevelProblem& problem);

/// What a wish has, and what it is off by.
///
/// @param has lx or a ratio; where it is no number, as in the dark, it counts as nothing
WishResult wish_result(const LevelWish& wish, double has);

/// What wishes have at some levels.
SolvedLevels judged_levels(const LevelProblem& problem, const Eigen::VectorXd& levels);

}  // namespace evenlit
