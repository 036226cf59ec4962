#include "evenlit/moods/levels.hpp"

#include <algorithm>
#include <cmath>
#include <random>

using namespace evenlit;

namespace {

using Kind = LevelWish::Kind;

/// Circuits that may have any level, of 10 W each.
LevelProblem problem_of(const Eigen::MatrixXd& light_lx) {
  const Eigen::Index circuits = light_lx.cols();
  LevelProblem problem{.light_lx = light_lx,
                       .base_lx = Eigen::VectorXd::Zero(light_lx.rows()),
                       .watts = Eigen::VectorXd::Constant(circuits, 10),
                       .least = Eigen::VectorXd::Zero(circuits),
                       .most = Eigen::VectorXd::Ones(circuits),
                       .is_off = std::vector<char>(static_cast<std::size_t>(circuits)),
                       .same_as = {},
                       .wishes = {}};
  for (int i = 0; i < circuits; ++i) problem.same_as.push_back(i);
  return problem;
}

Eigen::MatrixXd two_by_two() {
  Eigen::MatrixXd light(2, 2);
  light << 300, 50, 50, 200;
  return light;
}

/// Random light of circuits on areas, and random wishes.
LevelProblem random_problem(std::mt19937& random, int areas, int circuits) {
  std::uniform_real_distribution<double> unit(0, 1);
  Eigen::MatrixXd light(areas, circuits);
  for (double& value : light.reshaped()) value = 200 * unit(random) * unit(random);
  LevelProblem problem = problem_of(light);
  for (double& value : problem.base_lx) value = 5 * unit(random);
  for (int area = 0; area < areas; ++area) {
    const auto kind = static_cast<Kind>(random() % 4);
    problem.wishes.push_back({.kind = kind,
                              .area = area,
                              .other = (area + 1) % areas,
                              .value = kind == Kind::ratio ? 0.5 + 3 * unit(random) : 20 + 200 * unit(random),
                              .weight = 0.5 + unit(random)});
  }
  return problem;
}

}  // namespace

TEST_CASE("levels: wishes that can be met are met", "[moods][exact]") {
  LevelProblem problem = problem_of(two_by_two());
  problem.wishes = {{.kind = Kind::about, .area = 0, .value = 175}, {.kind = Kind::about, .area = 1, .value = 125}};
  const SolvedLevels solved = solved_levels(problem);
  // 300 a + 50 b = 175 and 50 a + 200 b = 125 by half and half; the wish for less power moves it by parts in a million.
  CHECK(solved.levels[0] == Approx(0.5).epsilon(1e-5));
  CHECK(solved.levels[1] == Approx(0.5).epsilon(1e-5));
  CHECK(solved.misfit < 1e-9);
  CHECK(solved.results[0].has == Approx(175).epsilon(1e-5));
}

TEST_CASE("levels: more than all circuits give is told by how much it is missed", "[moods][exact]") {
  LevelProblem problem = problem_of(two_by_two());
  problem.wishes = {{.kind = Kind::at_least, .area = 0, .value = 700}};
  const SolvedLevels solved = solved_levels(problem);
  CHECK(solved.levels.minCoeff() == 1);
  CHECK(solved.results[0].has == Approx(350));
  CHECK(solved.results[0].off_by == Approx(-0.5));
  CHECK(solved.misfit == Approx(0.25));
}

TEST_CASE("levels: as much as is wished and no more power than that takes", "[moods][property]") {
  LevelProblem problem = problem_of(two_by_two());
  problem.wishes = {{.kind = Kind::at_least, .area = 0, .value = 150}};
  const SolvedLevels solved = solved_levels(problem);
  CHECK(solved.results[0].has == Approx(150).epsilon(1e-4));
  CHECK(solved.levels[1] < 0.2);  // the circuit that does less for it is hardly used
  problem.wishes = {{.kind = Kind::at_most, .area = 0, .value = 150}};
  CHECK(solved_levels(problem).levels.maxCoeff() == 0);
}

TEST_CASE("levels: three times as much here as there", "[moods][exact]") {
  LevelProblem problem = problem_of(two_by_two());
  problem.wishes = {{.kind = Kind::ratio, .area = 0, .other = 1, .value = 3},
                    {.kind = Kind::about, .area = 0, .value = 150}};
  const SolvedLevels solved = solved_levels(problem);
  CHECK(solved.results[0].has == Approx(3).epsilon(1e-4));
  CHECK(solved.results[1].has == Approx(150).epsilon(1e-4));
}

TEST_CASE("levels: circuits that must be off are, equal ones are equal", "[moods][property]") {
  std::mt19937 random(11);
  for (int round = 0; round < 100; ++round) {
    LevelProblem problem = random_problem(random, 5, 4);
    problem.is_off[1] = 1;
    problem.same_as[3] = 2;
    const SolvedLevels solved = solved_levels(problem);
    CHECK(solved.levels[1] == 0);
    CHECK(solved.levels[3] == solved.levels[2]);
  }
}

TEST_CASE("levels: nothing that random tries find is better", "[moods][property]") {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> unit(0, 1);
  for (int round = 0; round < 60; ++round) {
    LevelProblem problem = random_problem(random, 6, 4);
    for (double& least : problem.least) least = 0.3 * unit(random);
    const SolvedLevels solved = solved_levels(problem);
    for (int i = 0; i < 4; ++i) CHECK((solved.levels[i] == 0 || solved.levels[i] >= problem.least[i] - 1e-12));
    for (int attempt = 0; attempt < 300; ++attempt) {
      Eigen::VectorXd levels(4);
      for (int i = 0; i < 4; ++i) {
        // Half of the tries are near what was found.
        const double level = attempt % 2 == 0 ? unit(random) : solved.levels[i] + 0.05 * (unit(random) - 0.5);
        levels[i] = level < problem.least[i] ? 0 : std::min(level, 1.0);
      }
      // The preference for less power costs 1e-6 at most.
      CHECK(judged_levels(problem, levels).misfit >= solved.misfit - 1e-6);
    }
  }
}

TEST_CASE("levels: a dimmer's range is kept", "[moods][exact]") {
  LevelProblem problem = problem_of(two_by_two());
  problem.wishes = {{.kind = Kind::about, .area = 0, .value = 350}};
  problem.most << 0.8, 1;
  CHECK(solved_levels(problem).levels[0] == Approx(0.8));
  // 30 lx of 300 are a tenth: less than the fifth that the circuit can give, so either that or nothing.
  problem.least << 0.2, 0;
  problem.is_off[1] = 1;
  problem.wishes = {{.kind = Kind::about, .area = 0, .value = 45}};
  CHECK(solved_levels(problem).levels[0] == Approx(0.2));
  problem.wishes = {{.kind = Kind::about, .area = 0, .value = 24}};
  CHECK(solved_levels(problem).levels[0] == 0);
}

TEST_CASE("levels: in the dark a ratio is no number", "[moods][exact]") {
  LevelProblem problem = problem_of(two_by_two());
  problem.wishes = {{.kind = Kind::ratio, .area = 0, .other = 1, .value = 3}};
  const SolvedLevels dark = judged_levels(problem, Eigen::Vector2d(0, 0));
  CHECK(std::isfinite(dark.results[0].off_by));
  CHECK(std::isfinite(dark.misfit));
}
