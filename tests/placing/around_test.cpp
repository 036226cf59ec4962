#include "evenlit/placing/around.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "plans.hpp"

using namespace evenlit;

namespace {

using Eigen::Vector2d;

const Polygon k_room{{0, 0}, {6, 0}, {6, 5}, {0, 5}};
/// 2.4 m by 1.2 m.
const Polygon k_island{{2, 2}, {4.4, 2}, {4.4, 3.2}, {2, 3.2}};

bool are_places(const Layout& layout, const Polygon& places) {
  return std::ranges::equal(layout.positions_m, places,
                            [](const Vector2d& a, const Vector2d& b) { return (a - b).norm() < 1e-9; });
}

}  // namespace

TEST_CASE("around a box: over its long sides and over all four, half the spacing at the ends", "[placing][exact]") {
  const std::vector<Layout> layouts = around_layouts(k_island, k_room, 6, 0);
  REQUIRE(layouts.size() == 2);
  CHECK(layouts[0].name == "2 long sides, 3 each");
  CHECK(are_places(layouts[0], {{2.4, 2}, {3.2, 2}, {4, 2}, {2.4, 3.2}, {3.2, 3.2}, {4, 3.2}}));
  CHECK((layouts[0].spacing_m - Vector2d(0.8, 1.2)).norm() < 1e-12);
  // Two and one have 1.2 m on every side.
  CHECK(layouts[1].name == "4 sides, 2 and 1 each");
  CHECK(are_places(layouts[1], {{2.6, 2}, {3.8, 2}, {2, 2.6}, {4.4, 2.6}, {2.6, 3.2}, {3.8, 3.2}}));
}

TEST_CASE("around a box: so far outside of its edges", "[placing][exact]") {
  CHECK(are_places(around_layouts(k_island, k_room, 2, 0.3).at(0), {{3.2, 1.7}, {3.2, 3.5}}));
  // At 2 m both rows are on walls' lines or beyond.
  CHECK(around_layouts(k_island, k_room, 2, 2).empty());
}

TEST_CASE("around a box: an odd count has no layout", "[placing][exact]") {
  CHECK(around_layouts(k_island, k_room, 5, 0).empty());
}

TEST_CASE("around a box: every can is over an edge, as many over opposite ones, however the box is turned",
          "[placing][property]") {
  const Polygon room = {{-20, -20}, {20, -20}, {20, 20}, {-20, 20}};
  for (int count = 2; count <= k_most_counted; count += 2) {
    const std::vector<Layout> upright = around_layouts(k_island, room, count, 0);
    CHECK(upright.size() == (count == 2 ? 1U : 2U));
    for (const double turn_deg : {-30.0, 10.0, 44.0}) {
      const Polygon box = turned(k_island, turn_deg);
      const std::vector<Layout> layouts = around_layouts(box, room, count, 0);
      REQUIRE(layouts.size() == upright.size());
      for (std::size_t i = 0; i < layouts.size(); ++i) {
        CHECK(layouts[i].name == upright[i].name);
        CHECK(std::ssize(layouts[i].positions_m) == count);
        const Polygon places = turned(upright[i].positions_m, turn_deg);
        for (std::size_t can = 0; can < places.size(); ++can) {
          CHECK((layouts[i].positions_m[can] - places[can]).norm() < 1e-9);
          CHECK(distance_to_outline(box, places[can]) < 1e-9);
        }
      }
    }
  }
}
