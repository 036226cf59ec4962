#include "evenlit/wiring/path.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <catch2/catch.hpp>
#include <numeric>
#include <random>

using namespace evenlit;

namespace {

using Points = std::vector<Eigen::Vector2d>;

std::size_t index(int i) { return static_cast<std::size_t>(i); }

/// Points on the raster of half a metre, so that sums are exact and ties are many, or anywhere.
Points random_points(int count, bool on_raster, std::mt19937& random) {
  Points points;
  std::uniform_real_distribution<double> anywhere(0, 10);
  const auto coordinate = [&] {
    const double metres = anywhere(random);
    return on_raster ? std::floor(2 * metres) / 2 : metres;
  };
  for (int i = 0; i < count; ++i) {
    const double x = coordinate();
    points.emplace_back(x, coordinate());
  }
  return points;
}

Way straight(const Eigen::Vector2d& a, const Eigen::Vector2d& b) { return {0, (a - b).norm()}; }

/// Along x, and across lines of the raster that are one metre apart, each of which is crossed.
Way through_lines(const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
  const int crossings = std::abs(static_cast<int>(std::floor(a.y())) - static_cast<int>(std::floor(b.y())));
  return {crossings, (a - b).lpNorm<1>()};
}

template <class Metric>
Way way_of(const std::vector<int>& order, const Eigen::Vector2d& start, const Points& points, const Metric& metric) {
  Way sum;
  Eigen::Vector2d at = start;
  for (const int place : order) {
    sum = sum + metric(at, points[index(place)]);
    at = points[index(place)];
  }
  return sum;
}

/// Of all permutations.
template <class Metric>
Way least_way(const Eigen::Vector2d& start, const Points& points, const Metric& metric) {
  std::vector<int> order(points.size());
  std::iota(order.begin(), order.end(), 0);
  Way least = way_of(order, start, points, metric);
  while (std::next_permutation(order.begin(), order.end())) {
    least = std::min(least, way_of(order, start, points, metric));
  }
  return least;
}

template <class Metric>
VisitOrder order_of(const Eigen::Vector2d& start, const Points& points, const Metric& metric) {
  return best_order(
      static_cast<int>(points.size()), [&](int a) { return metric(start, points[index(a)]); },
      [&](int a, int b) { return metric(points[index(a)], points[index(b)]); });
}

bool visits_each_once(std::vector<int> order, int count) {
  std::ranges::sort(order);
  std::vector<int> all(index(count));
  std::iota(all.begin(), all.end(), 0);
  return order == all;
}

}  // namespace

TEST_CASE("path: no order of up to eight places is better than the one found", "[wiring][property]") {
  std::mt19937 random(3);
  for (int trial = 0; trial < 60; ++trial) {
    const int count = 1 + trial % (trial < 48 ? 7 : 8);
    const Points points = random_points(count, trial % 2 == 0, random);
    const Eigen::Vector2d start(0, 5);
    const auto check = [&](const auto& metric) {
      const VisitOrder found = order_of(start, points, metric);
      const Way least = least_way(start, points, metric);
      CHECK(visits_each_once(found.places, count));
      CHECK(found.is_exact);
      CHECK(found.way.crossings == least.crossings);
      CHECK(found.way.length_m == Approx(least.length_m).epsilon(1e-12));  // sums in another order
      CHECK(found.way == way_of(found.places, start, points, metric));
    };
    check(straight);
    check(through_lines);
  }
}

TEST_CASE("path: fewer holes come before less cable", "[wiring][exact]") {
  // From the start both ways are one hole to place 1; visiting 0 first stays on this side of the framing for longer.
  const auto from_start = [](int place) { return place == 0 ? Way{0, 9} : Way{1, 1}; };
  const auto between = [](int, int) { return Way{1, 1}; };
  CHECK(best_order(2, from_start, between).places == std::vector<int>{0, 1});
  CHECK(best_order(2, from_start, between).way == Way{1, 10});
}

TEST_CASE("path: nothing to visit is no way", "[wiring][exact]") {
  const auto none = [](int) { return Way{}; };
  const VisitOrder found = best_order(0, none, [](int, int) { return Way{}; });
  CHECK(found.places.empty());
  CHECK(found.way == Way{});
}

TEST_CASE("path: fifteen places on a line are visited along it", "[wiring][exact]") {
  Points points;
  for (int i = 0; i < k_most_exact_places; ++i) points.emplace_back((7 * i) % k_most_exact_places + 1, 0);
  const VisitOrder found = order_of({0, 0}, points, straight);
  CHECK(found.is_exact);
  CHECK(found.way.length_m == k_most_exact_places);
}

TEST_CASE("path: of many places no stretch turned round makes the way shorter", "[wiring][property]") {
  std::mt19937 random(5);
  for (const int count : {k_most_exact_places + 1, 30, 60}) {
    const Points points = random_points(count, false, random);
    const Eigen::Vector2d start(0, 0);
    const VisitOrder found = order_of(start, points, straight);
    CHECK_FALSE(found.is_exact);
    CHECK(visits_each_once(found.places, count));
    for (int from = 0; from < count; ++from) {
      for (int to = from + 1; to < count; ++to) {
        std::vector<int> turned = found.places;
        std::reverse(turned.begin() + from, turned.begin() + to + 1);
        CHECK(way_of(turned, start, points, straight).length_m >= found.way.length_m - 1e-8);
      }
    }
  }
}

TEST_CASE("path: an order that is not certain is near the best", "[wiring][property]") {
  // Of sixteen places the exact best is known where they stand on a line.
  Points points;
  for (int i = 0; i <= k_most_exact_places; ++i) points.emplace_back((7 * i) % (k_most_exact_places + 1) + 1, 0);
  const VisitOrder found = order_of({0, 0}, points, straight);
  CHECK(found.way.length_m == k_most_exact_places + 1);
}
