#include "evenlit/job/ceiling.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "evenlit/job/walls.hpp"

using namespace evenlit;
using Eigen::Vector2d;
using Eigen::Vector3d;

namespace {

Shape attic(std::optional<double> collar_m, std::vector<Slope> slopes) {
  return {"Attic", {{0, 0}, {6, 0}, {6, 4}, {0, 4}}, {"south", "east", "north", "west"}, collar_m, std::move(slopes)};
}

}  // namespace

TEST_CASE("ceiling: a level one has its height everywhere", "[job][exact]") {
  const Ceiling ceiling = ceiling_of(attic(2.4, {}));
  CHECK(ceiling.is_level());
  CHECK(ceiling.lowest_m == 2.4);
  CHECK(ceiling.highest_m == 2.4);
  CHECK(ceiling.height_m({1, 3}) == 2.4);
  CHECK(ceiling.planes[0].normal() == -Vector3d::UnitZ());
}

TEST_CASE("ceiling: a shed rises from its wall to the other side", "[job][exact]") {
  const Ceiling ceiling = ceiling_of(attic({}, {{"west", 2, 0.5}}));
  CHECK(ceiling.lowest_m == 2);
  CHECK(ceiling.highest_m == 5);
  CHECK(ceiling.height_m({1, 3}) == 2.5);
  CHECK(ceiling.planes[0].normal().isApprox(Vector3d(1, 0, -2).normalized(), 1e-15));
}

TEST_CASE("ceiling: two slopes meet in a ridge, which a collar flattens", "[job][exact]") {
  const std::vector<Slope> gable{{"west", 1.5, 0.5}, {"east", 1, 1}};
  // 1.5 + x / 2 = 1 + (6 - x) at x = 11 / 3.
  CHECK(ceiling_of(attic({}, gable)).highest_m == Approx(1.5 + 11.0 / 6).epsilon(1e-14));
  const Ceiling collared = ceiling_of(attic(2.5, gable));
  CHECK(collared.highest_m == 2.5);
  CHECK(collared.lowest_m == 1);
  CHECK(collared.height_m({3, 1}) == 2.5);
  CHECK(collared.plane_over({1, 1}) == 1);
  CHECK(collared.plane_over({3, 1}) == 0);
  CHECK(collared.plane_over({5.5, 1}) == 2);
}

TEST_CASE("ceiling: a hip is highest where its planes meet inside the plan", "[job][exact]") {
  const Ceiling hip = ceiling_of(attic({}, {{"south", 2, 1}, {"north", 2, 1}, {"east", 2, 0.25}, {"west", 2, 1}}));
  CHECK(hip.highest_m == Approx(3.2).epsilon(1e-14));  // 2 + x = 2 + (6 - x) / 4 at x = 1.2, below 2 + y
  const Ceiling steep = ceiling_of(attic({}, {{"south", 2, 1}, {"north", 2, 1}, {"east", 2, 2}, {"west", 2, 2}}));
  CHECK(steep.highest_m == Approx(4).epsilon(1e-14));
}

TEST_CASE("ceiling: a plane goes on beyond the line of its wall", "[job][exact]") {
  Shape l_shape{"", {{0, 0}, {6, 0}, {6, 4}, {3, 4}, {3, 2}, {0, 2}}, {"a", "b", "c", "d", "e", "f"}, {}, {}};
  l_shape.slopes = {{"e", 2, 0.5}};  // from y = 2 toward y = 0
  CHECK(ceiling_of(l_shape).highest_m == 3);
  CHECK(ceiling_of(l_shape).lowest_m == 1);
}

TEST_CASE("walls: their outlines end at the ceiling", "[job][exact]") {
  const Shape room = attic({}, {{"west", 1.5, 0.5}, {"east", 1.5, 0.5}});
  const Ceiling ceiling = ceiling_of(room);
  CHECK(signed_area(wall_outline(room, ceiling, 0)) == Approx(6 * 1.5 + 6 * 1.5 / 2).epsilon(1e-14));  // a gable
  CHECK(wall_outline(room, ceiling, 0).size() == 5);
  CHECK(wall_outline(room, ceiling, 3) == Polygon{{0, 0}, {4, 0}, {4, 1.5}, {0, 1.5}});
  CHECK(on_wall(room, 0, {0, 1}) == Vector3d(6, 0, 1));
  CHECK(on_wall(room, 0, {6, 1}) == Vector3d(0, 0, 1));
}

TEST_CASE("walls: an area is measured from the neighbour that it names, and ends with its wall", "[job][exact]") {
  const Shape room = attic({}, {{"west", 1.5, 0.5}, {"east", 1.5, 0.5}});
  const Ceiling ceiling = ceiling_of(room);
  WallRectangle door{.wall = "south", .from = {"west", 1}, .width_m = 2, .top_m = 1.5};
  // Seen from inside, west is at the right end of the south wall.
  CHECK(outline_on_wall(room, ceiling, door) == Polygon{{3, 0}, {5, 0}, {5, 1.5}, {3, 1.5}});
  door.from.wall = "east";
  CHECK(outline_on_wall(room, ceiling, door) == Polygon{{1, 0}, {3, 0}, {3, 1.5}, {1, 1.5}});
  door.top_m = 9;
  CHECK(signed_area(outline_on_wall(room, ceiling, door)) == Approx(2 * 2.5).epsilon(1e-14));  // mean height at x = 4
  door.from.distance_m = 5.5;
  CHECK(signed_area(outline_on_wall(room, ceiling, door)) == Approx(0.5 * 1.625).epsilon(1e-14));
  door.from.distance_m = 6;
  CHECK(outline_on_wall(room, ceiling, door).empty());
  door.from = {"north", 1};
  CHECK(outline_on_wall(room, ceiling, door).empty());
}
