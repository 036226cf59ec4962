#include "evenlit/job/job.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace evenlit;

namespace {

const Shape k_room{"Den", {{0, 0}, {5, 0}, {5, 3}, {0, 3}}, {"south", "east", "north", "west"}, 2.4};

Can can_from(Taped first, Taped second) {
  Can can;
  can.from[0] = std::move(first);
  can.from[1] = std::move(second);
  return can;
}

Obstruction box_from(Taped first, Taped second) {
  Obstruction box;
  box.from[0] = std::move(first);
  box.from[1] = std::move(second);
  box.width_m = 2;
  box.depth_m = 0.5;
  return box;
}

}  // namespace

TEST_CASE("job: a can stands where its two tape measurements cross", "[job][exact]") {
  CHECK(plan_position(k_room, can_from({"west", 1}, {"south", 0.5})) == Eigen::Vector2d(1, 0.5));
  CHECK(plan_position(k_room, can_from({"south", 0.5}, {"west", 1})) == Eigen::Vector2d(1, 0.5));
  CHECK(plan_position(k_room, can_from({"east", 1}, {"north", 0.5})) == Eigen::Vector2d(4, 2.5));
  CHECK(plan_position(k_room, can_from({"west", 0}, {"north", 0})) == Eigen::Vector2d(0, 3));
}

TEST_CASE("job: parallel or unknown walls give no place", "[job][exact]") {
  CHECK_FALSE(plan_position(k_room, can_from({"west", 1}, {"east", 1})));
  CHECK_FALSE(plan_position(k_room, can_from({"west", 1}, {"west", 1})));
  CHECK_FALSE(plan_position(k_room, can_from({"west", 1}, {"roof", 1})));
}

TEST_CASE("job: a can is as far from its walls as the tape says, whatever their slant", "[job][property]") {
  // Coordinates below 10 m and walls at least 0.2 rad from parallel: rounding stays below 1e-12 m.
  std::mt19937_64 random(17);
  std::uniform_real_distribution<double> unit(0, 1);
  for (int i = 0; i < 500; ++i) {
    const double slant = 0.2 + 1.2 * unit(random);
    const Eigen::Vector2d along(std::cos(slant), std::sin(slant));
    const Shape room{"", {{0, 0}, {9, 0}, 9 * along}, {"base", "far", "slant"}, 2.4};
    const double from_base = unit(random);
    const double from_slant = unit(random);
    const auto place = plan_position(room, can_from({"base", from_base}, {"slant", from_slant}));
    REQUIRE(place);
    CHECK(place->y() == Approx(from_base).margin(1e-12).epsilon(0));
    const double distance_to_slant = place->x() * along.y() - place->y() * along.x();
    CHECK(distance_to_slant == Approx(from_slant).margin(1e-12).epsilon(0));
  }
}

TEST_CASE("job: an obstruction's centre is half its size beyond its near sides", "[job][exact]") {
  // Lengths that are sums of powers of two, so that nothing is rounded.
  CHECK(plan_centre(k_room, box_from({"west", 1}, {"south", 0.5})) == Eigen::Vector2d(2, 0.75));
  CHECK(plan_centre(k_room, box_from({"south", 0.5}, {"west", 1})) == Eigen::Vector2d(2, 0.75));
  CHECK(plan_centre(k_room, box_from({"east", 1}, {"north", 0.5})) == Eigen::Vector2d(3, 2.25));
  auto turned = box_from({"west", 1}, {"south", 0.5});
  turned.turn_deg = 30;
  CHECK(plan_centre(k_room, turned) == Eigen::Vector2d(2, 0.75));
}

TEST_CASE("job: parallel or unknown walls give an obstruction no centre", "[job][exact]") {
  CHECK_FALSE(plan_centre(k_room, box_from({"west", 1}, {"east", 1})));
  CHECK_FALSE(plan_centre(k_room, box_from({"west", 1}, {"roof", 1})));
}

TEST_CASE("job: an obstruction's nearest corner is as far from its walls as the tape says, whatever their slant",
          "[job][property]") {
  // Coordinates below 10 m and walls at least 0.2 rad from parallel: rounding stays below 1e-12 m.
  std::mt19937_64 random(18);
  std::uniform_real_distribution<double> unit(0, 1);
  for (int i = 0; i < 500; ++i) {
    const double slant = 0.2 + 1.2 * unit(random);
    const Eigen::Vector2d along(std::cos(slant), std::sin(slant));
    const Shape room{"", {{0, 0}, {9, 0}, 9 * along}, {"base", "far", "slant"}, 2.4};
    const double from_base = unit(random);
    const double from_slant = unit(random);
    const auto box = box_from({"base", from_base}, {"slant", from_slant});
    const auto centre = plan_centre(room, box);
    REQUIRE(centre);
    double nearest_to_base = 10;
    double nearest_to_slant = 10;
    for (const double east : {-1, 1}) {
      for (const double north : {-1, 1}) {
        const Eigen::Vector2d corner = *centre + Eigen::Vector2d(east * box.width_m, north * box.depth_m) / 2;
        nearest_to_base = std::min(nearest_to_base, corner.y());
        nearest_to_slant = std::min(nearest_to_slant, corner.x() * along.y() - corner.y() * along.x());
      }
    }
    CHECK(nearest_to_base == Approx(from_base).margin(1e-12).epsilon(0));
    CHECK(nearest_to_slant == Approx(from_slant).margin(1e-12).epsilon(0));
  }
}

TEST_CASE("job: a wall has its own reflectance or that of all walls", "[job][exact]") {
  Job job;
  job.room = k_room;
  job.finishes.walls = 0.5;
  job.finishes.wall = {{"east", 0.25}};
  CHECK(wall_reflectance(job, 0) == 0.5);
  CHECK(wall_reflectance(job, 1) == 0.25);
}

TEST_CASE("job: walls are found by name", "[job][exact]") {
  CHECK(wall_index(k_room, "west") == 3);
  CHECK_FALSE(wall_index(k_room, "West"));
}

TEST_CASE("job: where a part was written is not part of its value", "[job][exact]") {
  Can here;
  Can there;
  here.origin.place.line = 1;
  there.origin.place.line = 2;
  CHECK(here == there);
  Obstruction this_box;
  Obstruction that_box;
  that_box.origin.place.line = 2;
  CHECK(this_box == that_box);
}
