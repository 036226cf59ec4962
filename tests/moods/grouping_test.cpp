#include "evenlit/moods/grouping.hpp"

#include <algorithm>
#include <functional>
#include <random>

using namespace evenlit;

namespace {

using Kind = LevelWish::Kind;

/// Cans in a row over areas: each lights its own most and its neighbours less.
GroupingProblem row_of(int cans) {
  GroupingProblem problem{.light_lx = Eigen::MatrixXd(cans, cans),
                          .base_lx = Eigen::VectorXd::Zero(cans),
                          .watts = Eigen::VectorXd::Constant(cans, 10),
                          .least = Eigen::VectorXd::Zero(cans),
                          .moods = {}};
  for (int area = 0; area < cans; ++area) {
    for (int can = 0; can < cans; ++can) problem.light_lx(area, can) = 200.0 / (1 + std::pow(area - can, 2));
  }
  return problem;
}

GroupingProblem random_problem(unsigned seed, int cans) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> unit(0, 1);
  GroupingProblem problem = row_of(cans);
  for (int mood = 0; mood < 3; ++mood) {
    std::vector<LevelWish> wishes;
    for (int area = 0; area < cans; area += 2) {
      wishes.push_back({.kind = static_cast<Kind>(random() % 3), .area = area, .value = 20 + 250 * unit(random)});
    }
    problem.moods.push_back(wishes);
  }
  return problem;
}

/// The least misfit of all groupings, each tried.
double plain_best(const GroupingProblem& problem, int dimmers) {
  const auto cans = static_cast<std::size_t>(problem.light_lx.cols());
  double least = 1e9;
  std::vector<int> groups;
  const std::function<void(int)> next = [&](int used) {
    if (groups.size() == cans) {
      least = std::min(least, judged_grouping(problem, groups).misfit);
      return;
    }
    for (int group = 0; group < std::min(used + 1, dimmers); ++group) {
      groups.push_back(group);
      next(std::max(used, group + 1));
      groups.pop_back();
    }
  };
  next(0);
  return least;
}

}  // namespace

TEST_CASE("grouping: as good as the best of all groupings", "[moods][property]") {
  for (unsigned seed = 0; seed < 6; ++seed) {
    const GroupingProblem problem = random_problem(seed, 7);
    for (const int dimmers : {1, 2, 3}) {
      const Grouping best = best_grouping(problem, dimmers);
      CAPTURE(seed, dimmers);
      CHECK(best.is_exact);
      CHECK(*std::ranges::max_element(best.dimmer_of) < dimmers);
      CHECK(best.dimmer_of.front() == 0);
      // As exact as the preference for less power lets it be: 1e-6 a mood, and as much between groupings.
      CHECK(best.misfit == Approx(plain_best(problem, dimmers)).margin(5e-6));
      CHECK(judged_grouping(problem, best.dimmer_of).misfit == best.misfit);
    }
  }
}

TEST_CASE("grouping: more dimmers never serve worse", "[moods][property]") {
  for (unsigned seed = 0; seed < 4; ++seed) {
    const GroupingProblem problem = random_problem(seed, 8);
    double before = 1e9;
    for (int dimmers = 1; dimmers <= 4; ++dimmers) {
      const double misfit = best_grouping(problem, dimmers).misfit;
      CHECK(misfit <= before + 5e-6);
      before = misfit;
    }
  }
}

TEST_CASE("grouping: two halves of a room that want different light get a dimmer each", "[moods][exact]") {
  GroupingProblem problem = row_of(6);
  for (int area = 0; area < 6; ++area) {
    for (int can = 0; can < 6; ++can) problem.light_lx(area, can) = (area < 3) == (can < 3) ? 100 : 0;
  }
  problem.moods = {{{.kind = Kind::about, .area = 0, .value = 300}, {.kind = Kind::about, .area = 5, .value = 30}}};
  CHECK(best_grouping(problem, 2).dimmer_of == std::vector<int>{0, 0, 0, 1, 1, 1});
}

TEST_CASE("grouping: the split that serves most is the one between the halves", "[moods][exact]") {
  GroupingProblem problem = row_of(6);
  for (int area = 0; area < 6; ++area) {
    for (int can = 0; can < 6; ++can) problem.light_lx(area, can) = (area < 3) == (can < 3) ? 100 : 0;
  }
  problem.moods = {{{.kind = Kind::about, .area = 0, .value = 300}, {.kind = Kind::about, .area = 5, .value = 30}}};
  std::vector<Eigen::Vector2d> positions;
  for (int can = 0; can < 6; ++can) positions.emplace_back(can, 1.5);
  const Grouping one = judged_grouping(problem, std::vector<int>(6));
  const auto split = best_split(problem, one, positions);
  REQUIRE(split);
  CHECK(split->leaving == std::vector<int>{3, 4, 5});
  CHECK(split->grouping.misfit < 1e-6);
  CHECK_FALSE(best_split(problem, split->grouping, positions));
}
