#include "evenlit/job/job.hpp"

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
}
