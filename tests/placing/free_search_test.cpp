#include "evenlit/placing/free_search.hpp"

#include <algorithm>

#include "ceilings.hpp"
#include "random_candidates.hpp"

using namespace evenlit;

namespace {

double plain_minimum_lx(const Candidates& candidates, const std::vector<int>& places) {
  Eigen::VectorXd light = candidates.base_lx.cast<double>();
  for (const int place : places) light += candidates.light_lx.col(place).cast<double>();
  return light.minCoeff();
}

/// The best choice of `count` places that are far enough apart, by trying every one.
double plain_best_lx(const Candidates& candidates, int count, std::vector<int>& chosen) {
  if (std::ssize(chosen) == count) return plain_minimum_lx(candidates, chosen);
  double best = -1;
  const std::vector<Eigen::Vector2d>& places = candidates.raster.places_m;
  for (int place = chosen.empty() ? 0 : chosen.back() + 1; place < std::ssize(places); ++place) {
    const bool is_clear = std::ranges::all_of(chosen, [&](int other) {
      return (places[static_cast<std::size_t>(place)] - places[static_cast<std::size_t>(other)]).norm() >=
             candidates.least_apart_m;
    });
    if (!is_clear) continue;
    chosen.push_back(place);
    best = std::max(best, plain_best_lx(candidates, count, chosen));
    chosen.pop_back();
  }
  return best;
}

std::vector<int> places_of(const Candidates& candidates, const Layout& layout) {
  std::vector<int> places;
  for (const Eigen::Vector2d& position : layout.positions_m) {
    const auto& all = candidates.raster.places_m;
    places.push_back(static_cast<int>(std::ranges::find(all, position) - all.begin()));
  }
  return places;
}

}  // namespace

TEST_CASE("free search: it finds what brute force proves best, and the bound holds", "[placing][property]") {
  const Job job = random_candidates_job();
  const int count = GENERATE(1, 2, 3);
  int optimal = 0;
  constexpr unsigned k_seeds = 12;
  for (unsigned seed = 0; seed < k_seeds; ++seed) {
    CAPTURE(seed, count);
    const Candidates candidates = random_candidates(seed);
    const FreeLayout free = free_layout(job, candidates, count, std::nullopt);
    REQUIRE(free.found);
    CHECK(free.is_whole);
    REQUIRE(std::ssize(free.found->layout.positions_m) == count);
    // Sums in single precision: a few parts in ten million.
    CHECK(plain_minimum_lx(candidates, places_of(candidates, free.found->layout)) ==
          Approx(free.found->minimum_lx).epsilon(1e-6));
    std::vector<int> chosen;
    const double best_lx = plain_best_lx(candidates, count, chosen);
    CHECK(free.found->minimum_lx <= best_lx * (1 + 1e-6));
    CHECK(free.bound_lx >= best_lx * (1 - 1e-6));
    // So few cans in so few places are bounded to the end; what is left is that the bound lets cans be near each other.
    CHECK(free.bound_lx <= best_lx * 1.05);
    // A local search may miss the best, but not by much: measured, it misses by 3.5 % at most over these rooms...
    CHECK(free.found->minimum_lx >= 0.95 * best_lx);
    optimal += free.found->minimum_lx >= best_lx * (1 - 1e-6) ? 1 : 0;
  }
  CHECK(optimal >= 8);  // ... and finds it in 8 of the 12 at least
}

TEST_CASE("free search: no more than its start, no less", "[placing][property]") {
  const Job job = random_candidates_job();
  const Candidates candidates = random_candidates(3);
  const auto start = regular_layouts(job, candidates, {4}).best.front().brightest;
  REQUIRE(start);
  const FreeLayout free = free_layout(job, candidates, 4, start->layout);
  REQUIRE(free.found);
  CHECK(free.found->minimum_lx >= start->minimum_lx);
  CHECK(free.bound_lx >= free.found->minimum_lx);
}

TEST_CASE("free search: symmetric where that is wanted, and clear of each other", "[placing][property]") {
  Job job = random_candidates_job();
  job.wanted.is_symmetric = true;
  for (unsigned seed = 0; seed < 6; ++seed) {
    const Candidates candidates = random_candidates(seed);
    const FreeLayout free = free_layout(job, candidates, 6, std::nullopt);
    if (!free.found) continue;
    const auto& positions = free.found->layout.positions_m;
    for (const Eigen::Vector2d& position : positions) {
      for (const Eigen::Vector2d& mirrored :
           {Eigen::Vector2d(3 - position.x(), position.y()), Eigen::Vector2d(position.x(), 2.4 - position.y())}) {
        CHECK(std::ranges::any_of(positions, [&](const auto& other) { return (other - mirrored).norm() < 1e-9; }));
      }
      for (const Eigen::Vector2d& other : positions) {
        if (&other != &position) CHECK((other - position).norm() >= candidates.least_apart_m);
      }
    }
  }
}

TEST_CASE("free search: more cans than have room are none", "[placing][exact]") {
  const Job job = random_candidates_job();
  Candidates candidates = random_candidates(3);
  candidates.least_apart_m = 10;
  CHECK_FALSE(free_layout(job, candidates, 2, std::nullopt).found);
}
