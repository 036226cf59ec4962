#include "evenlit/placing/rounded_hull.hpp"

#include <catch2/catch.hpp>

#include "convex.hpp"

using namespace evenlit;

namespace {

using Eigen::Vector2d;

const Polygon k_square{{0, 0}, {2, 0}, {2, 2}, {0, 2}};

}  // namespace

TEST_CASE("rounded hull: distances from a square's outside, inside and corner", "[placing][exact]") {
  const RoundedHull hull(k_square, 0.5);
  CHECK(hull.distance_m({1, 3}) == 0.5);
  CHECK(hull.distance_m({5, 6}) == 4.5);  // 3, 4, 5 from the corner
  CHECK(hull.distance_m({1, 0.25}) == -0.75);
  CHECK(hull.distance_m({1, 1}) == -1.5);
  CHECK(hull.distance_m({1, 2.25}) == -0.25);
}

TEST_CASE("rounded hull: points and lines are figures too", "[placing][exact]") {
  CHECK(RoundedHull({{1, 1}}, 2).distance_m({4, 5}) == 3);
  CHECK(RoundedHull({{1, 1}}, 2).distance_m({1, 1}) == -2);
  const RoundedHull line({{0, 0}, {4, 0}}, 1);
  CHECK(line.distance_m({2, 3}) == 2);
  CHECK(line.distance_m({2, 0.25}) == -0.75);
  CHECK(line.distance_m({7, 4}) == 4);
}

TEST_CASE("rounded hull: where a line is inside", "[placing][exact]") {
  const RoundedHull hull(k_square, 0.5);
  CHECK(hull.span_on({{-3, 1}, {1, 0}}) == Span{2.5, 5.5});
  // Through the round corner at (2, 2), 0.3 m above it: the circle's half chord is 0.4 m.
  const auto span = hull.span_on({{0, 2.3}, {1, 0}});
  REQUIRE(span);
  CHECK((*span)[0] == Approx(-0.4));
  CHECK((*span)[1] == Approx(2.4));
  CHECK_FALSE(hull.span_on({{0, 2.6}, {1, 0}}));
  CHECK_FALSE(hull.span_on({{4, 0}, {0, 1}}));
  // A sharp square through its corners.
  const auto diagonal = RoundedHull(k_square, 0).span_on({{-1, -1}, Vector2d(1, 1).normalized()});
  REQUIRE(diagonal);
  CHECK((*diagonal)[0] == Approx(std::sqrt(2.0)));
  CHECK((*diagonal)[1] == Approx(3 * std::sqrt(2.0)));
}

TEST_CASE("convex: the sum of a line and a square is a stretched square", "[placing][exact]") {
  const Polygon sum = convex_sum({{0, 0}, {3, 0}}, {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}});
  CHECK(sum == Polygon{{-1, -1}, {4, -1}, {4, 1}, {-1, 1}});
}

TEST_CASE("convex: the pieces of a bent area cover it once", "[placing][exact]") {
  const Polygon bent{{0, 0}, {4, 0}, {4, 1}, {1, 1}, {1, 3}, {3, 3}, {3, 4}, {0, 4}};
  const auto pieces = convex_pieces(bent);
  double area = 0;
  for (const Polygon& piece : pieces) {
    area += signed_area(piece);
    CHECK(convex_hull(piece).size() == piece.size());
  }
  CHECK(area == Approx(signed_area(bent)));
  CHECK(convex_pieces(k_square).size() == 1);
}
