#include "evenlit/moods/grouping.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

namespace evenlit {
namespace {

using Eigen::Index;

/// Groups of cans, each can in one.
using Groups = std::vector<int>;

/// `same_as` of groups: of each can the first of its group.
std::vector<int> leaders_of(const Groups& groups) {
  std::vector<int> leaders;
  for (const int group : groups) {
    leaders.push_back(static_cast<int>(std::ranges::find(groups, group) - groups.begin()));
  }
  return leaders;
}

LevelProblem level_problem(const GroupingProblem& problem, const std::vector<LevelWish>& wishes, const Groups& groups,
                           bool with_least) {
  const Index cans = problem.light_lx.cols();
  return {.light_lx = problem.light_lx,
          .base_lx = problem.base_lx,
          .watts = problem.watts,
          .least = with_least ? problem.least : Eigen::VectorXd(Eigen::VectorXd::Zero(cans)),
          .most = Eigen::VectorXd::Ones(cans),
          .is_off = std::vector<char>(static_cast<std::size_t>(cans)),
          .same_as = leaders_of(groups),
          .wishes = wishes};
}

/// No grouping that joins more cans has less.
double bound_of(const GroupingProblem& problem, const Groups& groups) {
  double misfit = 0;
  for (const auto& wishes : problem.moods)
    misfit += solved_levels(level_problem(problem, wishes, groups, false)).misfit;
  return misfit;
}

/// Numbers groups by their first can.
Groups renumbered(const Groups& groups) {
  Groups numbered;
  std::vector<int> known;
  for (const int group : groups) {
    auto at = std::ranges::find(known, group);
    if (at == known.end()) at = known.insert(known.end(), group);
    numbered.push_back(static_cast<int>(at - known.begin()));
  }
  return numbered;
}

/// Joins the two groups that cost least until there are few enough.
Groups joined_greedily(const GroupingProblem& problem, int dimmers) {
  Groups groups(static_cast<std::size_t>(problem.light_lx.cols()));
  std::iota(groups.begin(), groups.end(), 0);
  for (int count = static_cast<int>(groups.size()); count > dimmers; --count) {
    Groups best;
    double least = std::numeric_limits<double>::infinity();
    for (int a = 0; a < count; ++a) {
      for (int b = a + 1; b < count; ++b) {
        Groups merged = groups;
        std::ranges::replace(merged, b, a);
        const double misfit = bound_of(problem, merged);
        if (misfit >= least) continue;
        least = misfit;
        best = merged;
      }
    }
    groups = renumbered(best);
  }
  return groups;
}

class GroupSearch {
 public:
  GroupSearch(const GroupingProblem& problem, int dimmers) : problem_(problem), dimmers_(dimmers) {
    const Index cans = problem.light_lx.cols();
    order_.resize(static_cast<std::size_t>(cans));
    std::iota(order_.begin(), order_.end(), 0);
    std::ranges::stable_sort(order_, std::greater(), [&](int can) { return problem.light_lx.col(can).sum(); });
  }

  [[nodiscard]] Grouping best() {
    best_ = judged_grouping(problem_, renumbered(joined_greedily(problem_, dimmers_)));
    Groups groups(order_.size());
    std::iota(groups.begin(), groups.end(), static_cast<int>(groups.size()));
    assign(groups, 0, 0);
    best_.is_exact = tried_ < k_most_tried;
    return best_;
  }

 private:
  /// Puts the next can on each dimmer in turn, the most promising first.
  ///
  /// @param groups those of cans before `next` in the order are numbers of dimmers, the others have one of their own
  void assign(const Groups& groups, std::size_t next, int used) {
    if (next == order_.size()) {
      Grouping judged = judged_grouping(problem_, renumbered(groups));
      if (judged.misfit < best_.misfit - k_equal) best_ = std::move(judged);
      return;
    }
    std::vector<std::pair<double, Groups>> ways;
    for (int dimmer = 0; dimmer < std::min(used + 1, dimmers_); ++dimmer) {
      Groups way = groups;
      way[static_cast<std::size_t>(order_[next])] = dimmer;
      if (++tried_ >= k_most_tried) return;
      const double bound = bound_of(problem_, way);
      if (bound < best_.misfit - k_equal) ways.emplace_back(bound, std::move(way));
    }
    std::ranges::stable_sort(ways, {}, &std::pair<double, Groups>::first);
    for (const auto& [bound, way] : ways) {
      if (bound >= best_.misfit - k_equal) break;
      const int dimmer = way[static_cast<std::size_t>(order_[next])];
      assign(way, next + 1, std::max(used, dimmer + 1));
    }
  }

  static constexpr double k_equal = 1e-6;  ///< `solved_levels` is no more exact
  static constexpr int k_most_tried = 20'000;

  const GroupingProblem& problem_;
  int dimmers_;
  std::vector<int> order_;  ///< cans, those that give most light first
  int tried_ = 0;
  Grouping best_;
};

/// Cans on one side of each gap between coordinates.
std::vector<std::vector<int>> sides_of(std::vector<int> cans, const std::vector<Eigen::Vector2d>& positions_m,
                                       int axis) {
  constexpr double k_same_m = 0.05;  // cans of one row, as a tape sets them out
  const auto at = [&](int can) { return positions_m[static_cast<std::size_t>(can)][axis]; };
  std::ranges::stable_sort(cans, {}, at);
  std::vector<std::vector<int>> sides;
  for (std::size_t i = 1; i < cans.size(); ++i) {
    if (at(cans[i]) - at(cans[i - 1]) > k_same_m) {
      sides.emplace_back(cans.begin() + static_cast<std::ptrdiff_t>(i), cans.end());
    }
  }
  return sides;
}

}  // namespace

Grouping judged_grouping(const GroupingProblem& problem, const std::vector<int>& dimmer_of) {
  Grouping grouping{.dimmer_of = dimmer_of};
  for (const auto& wishes : problem.moods) {
    grouping.moods.push_back(solved_levels(level_problem(problem, wishes, dimmer_of, true)));
    grouping.misfit += grouping.moods.back().misfit;
  }
  return grouping;
}

Grouping best_grouping(const GroupingProblem& problem, int dimmers) { return GroupSearch(problem, dimmers).best(); }

std::optional<Split> best_split(const GroupingProblem& problem, const Grouping& grouping,
                                const std::vector<Eigen::Vector2d>& positions_m) {
  constexpr double k_worth = 1e-6;
  std::optional<Split> best;
  const int dimmers = 1 + *std::ranges::max_element(grouping.dimmer_of);
  for (int dimmer = 0; dimmer < dimmers; ++dimmer) {
    std::vector<int> cans;
    for (int can = 0; can < std::ssize(grouping.dimmer_of); ++can) {
      if (grouping.dimmer_of[static_cast<std::size_t>(can)] == dimmer) cans.push_back(can);
    }
    for (const int axis : {0, 1}) {
      for (const std::vector<int>& leaving : sides_of(cans, positions_m, axis)) {
        std::vector<int> dimmer_of = grouping.dimmer_of;
        for (const int can : leaving) dimmer_of[static_cast<std::size_t>(can)] = dimmers;
        Grouping split = judged_grouping(problem, dimmer_of);
        const double least = best ? best->grouping.misfit : grouping.misfit;
        if (split.misfit < least - k_worth) best = Split{dimmer, leaving, std::move(split)};
      }
    }
  }
  return best;
}

}  // namespace evenlit
