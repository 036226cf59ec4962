#include "evenlit/base/polygon.hpp"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace evenlit;

namespace {

using Edges = std::array<int, 2>;

const Polygon k_square{{0, 0}, {2, 0}, {2, 2}, {0, 2}};
const Polygon k_ell{{0, 0}, {4, 0}, {4, 2}, {2, 2}, {2, 3}, {0, 3}};

Polygon regular(int corners) {
  Polygon polygon;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::acos(-1.0) * i / corners;
    polygon.emplace_back(std::cos(angle), std::sin(angle));
  }
  return polygon;
}

}  // namespace

TEST_CASE("polygon: area and perimeter of plain shapes", "[base][exact]") {
  CHECK(signed_area(k_square) == 4);
  CHECK(signed_area(k_ell) == 10);
  CHECK(perimeter(k_square) == 8);
  CHECK(perimeter(k_ell) == 14);
  Polygon clockwise = k_ell;
  std::reverse(clockwise.begin(), clockwise.end());
  CHECK(signed_area(clockwise) == -10);
}

TEST_CASE("polygon: area is that of the regular polygon's formula", "[base][formula]") {
  // (n/2) sin(2 pi / n) on the unit circle; n sums of products below 1 round by less than n * 1e-15.
  const double expected = 100.0 / 2 * std::sin(2 * std::acos(-1.0) / 100);
  CHECK(signed_area(regular(100)) == Approx(expected).margin(1e-13).epsilon(0));
}

TEST_CASE("polygon: area does not depend on where the plan lies", "[base][property]") {
  Polygon far = k_ell;
  for (auto& corner : far) corner += Eigen::Vector2d(512, -256);
  CHECK(signed_area(far) == 10);  // exact: the moved corners are whole numbers
}

TEST_CASE("polygon: simple polygons have no crossing edges", "[base][exact]") {
  CHECK_FALSE(crossing_edges({{0, 0}, {1, 0}, {0, 1}}));
  CHECK_FALSE(crossing_edges(k_square));
  CHECK_FALSE(crossing_edges(k_ell));
  CHECK_FALSE(crossing_edges(regular(300)));
  CHECK_FALSE(crossing_edges({{0, 0}, {1, 0}, {2, 0}, {2, 2}, {0, 2}}));  // a corner in the middle of a straight wall
}

TEST_CASE("polygon: edges that cross, touch or fold back are found", "[base][exact]") {
  CHECK(crossing_edges({{0, 0}, {2, 2}, {2, 0}, {0, 2}}) == Edges{0, 2});                  // bow tie
  CHECK(crossing_edges({{0, 0}, {4, 0}, {4, 2}, {2, 0}, {0, 2}}) == Edges{0, 2});          // corner on an edge
  CHECK(crossing_edges({{0, 0}, {2, 1}, {4, 0}, {4, 2}, {2, 1}, {0, 2}}) == Edges{0, 3});  // corners that meet
  CHECK(crossing_edges({{0, 0}, {2, 0}, {2, 0}, {2, 2}, {0, 2}}) == Edges{0, 1});          // repeated corner
  CHECK(crossing_edges({{0, 0}, {2, 0}, {2, 2}, {0, 2}, {0, 0}}) == Edges{0, 3});          // repeated at the end
  CHECK(crossing_edges({{0, 0}, {2, 0}, {2, 2}, {2, 1}, {0, 1}}) == Edges{1, 2});          // spike
  CHECK(crossing_edges({{0, 0}, {4, 0}, {4, 2}, {3, 2}, {3, 0}, {1, 0}, {0, 2}}) == Edges{0, 3});  // overlapping edges
  CHECK(crossing_edges({{0, 0}, {1, 0}, {2, 0}}).has_value());                                     // no area
  CHECK(crossing_edges({{0, 0}, {0, 0}, {0, 0}}).has_value());
  CHECK(crossing_edges({{0, 0}, {1, 0}}) == Edges{0, 1});
}

TEST_CASE("polygon: rounding does not hide a corner on a slanting edge", "[base][property]") {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> coordinate(0.1, 9.9);
  for (int i = 0; i < 200; ++i) {
    const Eigen::Vector2d end(10, coordinate(random));
    const Eigen::Vector2d touching = end * (coordinate(random) / 10);
    CAPTURE(end, touching);
    CHECK(crossing_edges({{0, 0}, end, {10, 20}, touching, {0, 20}}).has_value());
  }
}

TEST_CASE("polygon: points are inside, on the outline or outside", "[base][exact]") {
  CHECK(is_inside(k_ell, {1, 2.5}));
  CHECK(is_inside(k_ell, {3.9, 0.1}));
  CHECK(is_inside(k_ell, {2, 2}));  // inner corner
  CHECK(is_inside(k_ell, {3, 2}));  // on an edge
  CHECK(is_inside(k_ell, {0, 0}));  // corner
  CHECK(is_inside(k_ell, {1, 2}));  // level with a corner
  CHECK_FALSE(is_inside(k_ell, {3, 2.5}));
  CHECK_FALSE(is_inside(k_ell, {-1, 2}));
  CHECK_FALSE(is_inside(k_ell, {-1, 0}));
  CHECK_FALSE(is_inside(k_ell, {5, 2}));
  CHECK_FALSE(is_inside(k_ell, {2.001, 2.001}));
}

TEST_CASE("polygon: inside means the same whichever way the corners run", "[base][property]") {
  Polygon clockwise = k_ell;
  std::reverse(clockwise.begin(), clockwise.end());
  std::mt19937_64 random(3);
  std::uniform_real_distribution<double> coordinate(-1, 5);
  int inside = 0;
  for (int i = 0; i < 1000; ++i) {
    const Eigen::Vector2d point(coordinate(random), coordinate(random));
    CHECK(is_inside(k_ell, point) == is_inside(clockwise, point));
    inside += is_inside(k_ell, point) ? 1 : 0;
  }
  // 10 of 36 m2: 277.8 of 1000 points, five standard deviations of a binomial count are 71.
  CHECK(std::abs(inside - 277.8) < 71);
}

TEST_CASE("polygon: distance to the outline", "[base][exact]") {
  CHECK(distance_to_outline(k_square, {1, 1}) == 1);
  CHECK(distance_to_outline(k_square, {1, 0.25}) == 0.25);
  CHECK(distance_to_outline(k_square, {2, 1}) == 0);
  CHECK(distance_to_outline(k_square, {5, 6}) == 5);  // 3-4-5 from the corner
  CHECK(distance_to_outline(k_square, {-2, 1}) == 2);
  CHECK(nearest_of(k_square, {1, 0.25}) == Eigen::Vector2d(1, 0.25));
  CHECK(nearest_of(k_square, {5, 6}) == Eigen::Vector2d(2, 2));
  CHECK(nearest_of(k_square, {-2, 1}) == Eigen::Vector2d(0, 1));
}

TEST_CASE("polygon: the area of one in space points to where it runs counter-clockwise", "[base][exact]") {
  const std::vector<Eigen::Vector3d> upright{{1, 2, 0}, {4, 2, 0}, {4, 2, 2}};  // seen from the south
  CHECK(vector_area(upright) == Eigen::Vector3d(0, -3, 0));
  const std::vector<Eigen::Vector3d> hollow{
      {0, 0, 1}, {4, 0, 1}, {1, 1, 1}, {0, 4, 1}};  // 8 less 4: two triangles of 2
  CHECK(vector_area(hollow) == Eigen::Vector3d(0, 0, 4));
}
