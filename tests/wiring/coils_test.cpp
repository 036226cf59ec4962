#include "evenlit/wiring/coils.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <tuple>

#include "evenlit/base/length.hpp"

using namespace evenlit;

namespace {

constexpr double k_ft = k_metres_per_foot;

/// What coils cost and hold, the better the less.
using Rank = std::tuple<double, double, int>;

Rank rank_of(const std::vector<int>& counts, const std::vector<Coil>& coils) {
  double cost = 0;
  double length_m = 0;
  int count = 0;
  for (std::size_t i = 0; i < coils.size(); ++i) {
    cost += counts[i] * coils[i].price.value_or(0);
    length_m += counts[i] * coils[i].length_m;
    count += counts[i];
  }
  return {cost, std::round(1000 * length_m) / 1000, count};  // sums of equal length differ by their order
}

/// The best of all counts that hold the length.
Rank best_rank(double needed_m, const std::vector<Coil>& coils, std::vector<int> counts = {}) {
  if (counts.size() == coils.size()) {
    const Rank rank = rank_of(counts, coils);
    return std::get<1>(rank) >= needed_m - 1e-6 ? rank : Rank{1e300, 0, 0};
  }
  Rank best{1e300, 0, 0};
  const int most = 1 + static_cast<int>(needed_m / coils[counts.size()].length_m);
  counts.push_back(0);
  for (; counts.back() <= most; ++counts.back()) best = std::min(best, best_rank(needed_m, coils, counts));
  return best;
}

std::vector<Coil> sold(const std::vector<std::pair<double, std::optional<double>>>& feet_and_prices) {
  std::vector<Coil> coils;
  for (const auto& [feet, price] : feet_and_prices) coils.push_back({{14, 2}, feet * k_ft, price});
  return coils;
}

}  // namespace

TEST_CASE("coils: by hand", "[wiring][exact]") {
  // 130 ft: 50 + 100 ft leave the least over; a coil of 250 ft is cheaper than these two.
  CHECK(coils_for(130 * k_ft, sold({{50, {}}, {100, {}}, {250, {}}})).counts == std::vector<int>{1, 1, 0});
  const CoilPurchase priced = coils_for(130 * k_ft, sold({{50, 40}, {100, 65}, {250, 98}}));
  CHECK(priced.counts == std::vector<int>{0, 0, 1});
  CHECK(priced.cost == 98);
  // Of 100 ft two coils of 50 ft or one of 100 ft leave nothing: the fewer.
  CHECK(coils_for(100 * k_ft, sold({{50, {}}, {100, {}}})).counts == std::vector<int>{0, 1});
  // Where one kind has no price, cost does not count.
  const CoilPurchase unpriced = coils_for(40 * k_ft, sold({{50, 40}, {100, {}}}));
  CHECK(unpriced.counts == std::vector<int>{1, 0});
  CHECK_FALSE(unpriced.cost);
  CHECK(coils_for(0, sold({{50, 40}})).counts == std::vector<int>{0});
}

TEST_CASE("coils: no other counts are better", "[wiring][property]") {
  std::mt19937 random(7);
  const auto below = [&](int count) { return static_cast<int>(random() % static_cast<unsigned>(count)); };
  for (int trial = 0; trial < 200; ++trial) {
    std::vector<std::pair<double, std::optional<double>>> kinds;
    for (int i = 0; i <= below(3); ++i) kinds.push_back({25.0 * (1 + below(10)), {}});
    if (below(2) == 0) {
      for (auto& kind : kinds) kind.second = 10 + below(90);
    }
    const std::vector<Coil> coils = sold(kinds);
    const double needed_m = below(500) * k_ft;  // at most twenty of the shortest coil
    const CoilPurchase found = coils_for(needed_m, coils);
    const bool has_prices = coils.front().price.has_value();
    const auto [cost, length_m, count] = rank_of(found.counts, coils);
    const auto [best_cost, best_length_m, best_count] = best_rank(needed_m, coils);
    // Whole dollars are exact; lengths differ by the order of their sums, counted in whole centimetres.
    CHECK(cost == best_cost);
    CHECK(length_m == Approx(best_length_m).margin(1e-6));
    CHECK(count == best_count);
    CHECK(found.length_m == Approx(length_m));
    CHECK(found.length_m >= needed_m - 1e-6);
    CHECK(found.cost.has_value() == has_prices);
  }
}

TEST_CASE("coils: a very long need is held by whole coils of the best value and little more", "[wiring][property]") {
  const std::vector<Coil> coils = sold({{50, 40}, {250, 98}});
  const CoilPurchase found = coils_for(100'000 * k_ft, coils);
  CHECK(found.length_m >= 100'000 * k_ft - 1e-6);
  CHECK(found.length_m <= 100'250 * k_ft);
  CHECK(found.counts[1] == 400);
}
