#include "evenlit/placing/plan_frame.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "plans.hpp"

using namespace evenlit;

namespace {

using Eigen::AlignedBox2d;
using Eigen::Vector2d;
using Boxes = std::vector<AlignedBox2d>;

AlignedBox2d box(double west, double south, double east, double north) {
  return {Vector2d(west, south), Vector2d(east, north)};
}

bool are_same(const Boxes& a, const Boxes& b) {
  return std::ranges::equal(a, b, [](const AlignedBox2d& one, const AlignedBox2d& other) {
    return (one.min() - other.min()).norm() < 1e-9 && (one.max() - other.max()).norm() < 1e-9;
  });
}

}  // namespace

TEST_CASE("plan frame: upright plans have that of the compass, turned ones turn with them", "[placing][property]") {
  for (const Polygon& plan : {k_l, k_t, k_u, Polygon{{0, 0}, {5, 0}, {5, 3}, {0, 4}}}) {
    CHECK(frame_of(plan).along == Vector2d::UnitX());
    for (const double turn_deg : {-40.0, -10.0, 3.0, 44.0, 90.0, 130.0, 200.0}) {
      CAPTURE(turn_deg);
      const Vector2d along = frame_of(turned(plan, turn_deg)).along;
      CHECK(along.norm() == Approx(1).margin(1e-12));
      // By quarters the same as the turn.
      const double quarters = (std::atan2(along.y(), along.x()) * 180 / std::numbers::pi - turn_deg) / 90;
      CHECK(quarters == Approx(std::round(quarters)).margin(1e-9));
      CHECK(std::abs(along.y()) <= along.x() + 1e-9);
    }
  }
}

TEST_CASE("plan frame: in and out are each other's inverse", "[placing][property]") {
  const PlanFrame frame = frame_of(turned(k_l, 27));
  for (const Vector2d& point : k_l) CHECK((frame.out(frame.in(point)) - point).norm() < 1e-12);
}

TEST_CASE("plan rectangles: an L, a T and a U are cut into the fewest, the least elongated", "[placing][exact]") {
  CHECK(are_same(rectangles_of({{0, 0}, {5, 0}, {5, 3}, {0, 3}}), {box(0, 0, 5, 3)}));
  // 9 m x 3 m with 3 m x 3 m on its west: upright, 6 x 3 beside 3 x 6 are less elongated than 9 x 3 below 3 x 3.
  CHECK(are_same(rectangles_of({{0, 0}, {9, 0}, {9, 3}, {3, 3}, {3, 6}, {0, 6}}), {box(0, 0, 3, 6), box(3, 0, 9, 3)}));
  CHECK(are_same(rectangles_of(k_t), {box(3, 0, 6, 3), box(0, 3, 9, 6)}));
  // Upright the arms are 6 x 3, level the base were 8 x 3.
  CHECK(are_same(rectangles_of(k_u), {box(0, 0, 3, 6), box(3, 0, 5, 3), box(5, 0, 8, 6)}));
}

TEST_CASE("plan rectangles: corners as a tape reads them are square", "[placing][exact]") {
  // To the nearest 1/16 in, a turned plan is never quite square.
  constexpr double k_sixteenth_m = 0.0254 / 16;
  for (const double turn_deg : {-31.0, 12.0, 44.0}) {
    Polygon taped = turned(k_t, turn_deg);
    for (Vector2d& corner : taped) corner = (corner / k_sixteenth_m).array().round() * k_sixteenth_m;
    const Boxes parts = rectangles_of(taped);
    REQUIRE(parts.size() == 2);
    CHECK((parts[0].sizes() - Vector2d(3, 3)).norm() < 4 * k_sixteenth_m);
    CHECK((parts[1].sizes() - Vector2d(9, 3)).norm() < 4 * k_sixteenth_m);
  }
}

TEST_CASE("plan rectangles: a chimney breast, a slanted wall or many corners leave the bounding rectangle",
          "[placing][exact]") {
  CHECK(
      are_same(rectangles_of({{0, 0}, {6, 0}, {6, 4}, {4, 4}, {4, 3.6}, {2, 3.6}, {2, 4}, {0, 4}}), {box(0, 0, 6, 4)}));
  CHECK(are_same(rectangles_of({{0, 0}, {6, 0}, {6, 2}, {0, 4}}), {box(0, 0, 6, 4)}));
  // A stair of ten steps has nine inner corners.
  Polygon stair{{0, 0}, {10, 0}};
  for (int step = 1; step <= 10; ++step) {
    stair.emplace_back(11 - step, step);
    stair.emplace_back(10 - step, step);
  }
  stair.pop_back();
  stair.emplace_back(0, 10);
  REQUIRE_FALSE(crossing_edges(stair));
  CHECK(are_same(rectangles_of(stair), {box(0, 0, 10, 10)}));
}

TEST_CASE("plan rectangles: a slit narrower than walls in line does not matter, or leaves the bounding rectangle",
          "[placing][exact]") {
  // Between the arms of a U 4 mm are left; a fin of 4 mm stands out of an L.
  const Polygon slit{{0, 0}, {6, 0}, {6, 3}, {3.004, 3}, {3.004, 1}, {3, 1}, {3, 6}, {0, 6}};
  const Polygon fin{{0, 0}, {6, 0}, {6, 3}, {3, 3}, {3, 6}, {1.004, 6}, {1.004, 8}, {1, 8}, {1, 6}, {0, 6}};
  for (const Polygon& plan : {slit, fin}) {
    REQUIRE_FALSE(crossing_edges(plan));
    const Boxes parts = rectangles_of(plan);
    REQUIRE_FALSE(parts.empty());
    for (const AlignedBox2d& part : parts) CHECK(part.sizes().minCoeff() > 0.1);
  }
}

TEST_CASE("plan rectangles: they cover the plan and do not overlap, however it is turned or mirrored",
          "[placing][property]") {
  for (const Polygon& plan : {k_l, k_t, k_u, k_z, k_cross, k_stair}) {
    const Boxes upright = rectangles_of(plan);
    double area_m2 = 0;
    for (const AlignedBox2d& part : upright) {
      area_m2 += part.volume();
      CHECK(is_inside(plan, part.center()));
      for (const AlignedBox2d& other : upright) {
        if (&other != &part) CHECK(part.intersection(other).sizes().cwiseMax(0).prod() < 1e-9);
      }
    }
    CHECK(area_m2 == Approx(signed_area(plan)).epsilon(1e-12));
    for (const double turn_deg : {-31.0, 12.0, 44.0}) CHECK(are_same(rectangles_of(turned(plan, turn_deg)), upright));
    // The order of the corners does not matter.
    Polygon later = plan;
    std::ranges::rotate(later, later.begin() + 2);
    CHECK(are_same(rectangles_of(later), upright));
    std::vector<double> sizes;
    std::vector<double> mirrored_sizes;
    for (const AlignedBox2d& part : upright) sizes.push_back(part.volume());
    for (const AlignedBox2d& part : rectangles_of(mirrored(plan))) mirrored_sizes.push_back(part.volume());
    std::ranges::sort(sizes);
    std::ranges::sort(mirrored_sizes);
    REQUIRE(sizes.size() == mirrored_sizes.size());
    for (std::size_t i = 0; i < sizes.size(); ++i) CHECK(sizes[i] == Approx(mirrored_sizes[i]).epsilon(1e-12));
  }
}
