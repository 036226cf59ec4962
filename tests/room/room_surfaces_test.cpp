#include "room_surfaces.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace evenlit;
using Eigen::Vector3d;

namespace {

/// 6 m x 4 m, named as a rectangle's walls are.
Job attic(std::optional<double> level_m, std::vector<Slope> slopes) {
  Job job;
  job.room = {
      "Attic", {{0, 0}, {6, 0}, {6, 4}, {0, 4}}, {"south", "east", "north", "west"}, level_m, std::move(slopes)};
  return job;
}

const std::vector<Slope> k_gable{{"west", 1.5, 1}, {"east", 1.5, 1}};

std::vector<Surface> surfaces_of(const Job& job) { return room_surfaces(job, ceiling_of(job.room)); }

double free_m2(const Surface& surface) {
  double area = 0;
  for (const Outline& c : surface.free_m) {
    for (std::size_t i = 1; i + 1 < c.size(); ++i) area += (c[i] - c[0]).cross(c[i + 1] - c[0]).dot(surface.normal) / 2;
  }
  return area;
}

std::vector<std::string> names_of(const std::vector<Surface>& surfaces) {
  std::vector<std::string> names;
  for (const Surface& surface : surfaces) names.push_back(surface.name);
  return names;
}

const Surface& named(const std::vector<Surface>& surfaces, std::string_view name) {
  const auto found = std::ranges::find(surfaces, name, &Surface::name);
  REQUIRE(found != surfaces.end());
  return *found;
}

}  // namespace

TEST_CASE("a ceiling with a level part and slopes is a surface for each plane", "[room][exact]") {
  const auto surfaces = surfaces_of(attic(2.5, k_gable));
  CHECK(names_of(surfaces) == std::vector<std::string>{"floor", "ceiling, level part", "ceiling, slope over west",
                                                       "ceiling, slope over east", "south", "east", "north", "west"});
  CHECK(free_m2(surfaces[1]) == Approx(4 * 4).epsilon(1e-7));  // to 1.5e-8 m, as all cut pieces
  CHECK(free_m2(surfaces[2]) == Approx(std::sqrt(2) * 4).epsilon(1e-7));
  CHECK(surfaces[2].normal.isApprox(Vector3d(1, 0, -1).normalized(), 1e-15));
  CHECK(surfaces[3].normal.isApprox(Vector3d(-1, 0, -1).normalized(), 1e-15));
  CHECK(free_m2(named(surfaces, "south")) == Approx(6 * 2.5 - 1).epsilon(1e-12));
  CHECK(free_m2(named(surfaces, "west")) == Approx(4 * 1.5).epsilon(1e-12));
}

TEST_CASE("one plane alone is the ceiling, level or not", "[room][exact]") {
  const auto shed = surfaces_of(attic({}, {{"north", 2, 0.5}}));
  CHECK(names_of(shed)[1] == "ceiling");
  CHECK(free_m2(shed[1]) == Approx(6 * 4 * std::sqrt(1.25)).epsilon(1e-12));
  CHECK(free_m2(named(shed, "east")) == Approx(4 * 3).epsilon(1e-12));
  CHECK(free_m2(named(shed, "south")) == Approx(6 * 4).epsilon(1e-12));
}

TEST_CASE("a plane that is the lowest nowhere has no surface, and two that coincide have one", "[room][exact]") {
  const auto high = surfaces_of(attic(2.4, {{"west", 3, 1}}));
  CHECK(names_of(high) == std::vector<std::string>{"floor", "ceiling, level part", "south", "east", "north", "west"});
  CHECK(free_m2(high[1]) == Approx(24).epsilon(1e-7));
  CHECK(surfaces_of(attic({}, {{"west", 2, 1}, {"west", 2, 1}})).size() == 6);
}

TEST_CASE("a plane over two wings of a room has a piece in each", "[room][exact]") {
  Job job;
  job.room.corners_m = {{0, 0}, {9, 0}, {9, 4}, {6, 4}, {6, 2}, {3, 2}, {3, 4}, {0, 4}};
  for (const char* name : {"a", "b", "c", "d", "e", "f", "g", "h"}) job.room.wall_names.emplace_back(name);
  job.room.ceiling_m = 3;
  job.room.slopes = {{"g", 2, 1}};  // from y = 4: the level part begins at y = 3
  const auto surfaces = surfaces_of(job);
  CHECK(std::ranges::count(surfaces, "ceiling, slope over g", &Surface::name) == 2);
  CHECK(std::ranges::count(surfaces, "ceiling, level part", &Surface::name) == 1);
}

TEST_CASE("a wall area is taken off its wall, and a later one off an earlier one", "[room][exact]") {
  Job job = attic(2.5, {});
  job.finishes.wall["south"] = 0.6;
  const WallRectangle paint{.wall = "south", .from = {"west", 1}, .width_m = 3, .top_m = 2};
  const WallRectangle door{.wall = "south", .from = {"east", 1.5}, .width_m = 1, .top_m = 3};
  const WallRectangle vent{.wall = "south", .from = {"west", 2}, .width_m = 0.5, .bottom_m = 1, .top_m = 1.5};
  const auto add = [&](const WallRectangle& rectangle, const std::string& name, double reflectance) {
    WallArea area{rectangle};
    area.name = name;
    area.reflectance = reflectance;
    job.wall_areas.push_back(area);
  };
  add(paint, "paint", 0.3);
  add(door, "door", 0.7);
  add(vent, "vent", 0.5);
  const auto surfaces = surfaces_of(job);
  // From the west corner: paint 1...4 m, door 3.5...4.5 m up to the ceiling, vent 2...2.5 m within the paint.
  CHECK(free_m2(named(surfaces, "door")) == Approx(2.5).epsilon(1e-7));
  CHECK(free_m2(named(surfaces, "paint")) == Approx(2.5 * 2 - 0.25).epsilon(1e-7));
  CHECK(free_m2(named(surfaces, "vent")) == Approx(0.25).epsilon(1e-7));
  CHECK(free_m2(named(surfaces, "south")) == Approx(15 - 2.5 - 2.5 * 2).epsilon(1e-7));
  CHECK(named(surfaces, "door").part == Part::wall_area);
  CHECK(named(surfaces, "door").reflectance == 0.7);
  CHECK(named(surfaces, "door").normal == named(surfaces, "south").normal);
}

TEST_CASE("a wall area under another has nothing left, and the wall neither", "[room][exact]") {
  Job job = attic(2.5, {});
  for (const char* name : {"first", "second"}) {
    job.wall_areas.push_back({{.wall = "east", .from = {"south", 0}, .width_m = 4, .top_m = 2.5}, name});
  }
  const auto surfaces = surfaces_of(job);
  CHECK(named(surfaces, "first").free_m.empty());
  CHECK(named(surfaces, "east").free_m.empty());
  CHECK(free_m2(named(surfaces, "second")) == Approx(10).epsilon(1e-12));
}

TEST_CASE("what stands against a wall covers the area on it", "[room][exact]") {
  Job job = attic(2.5, {});
  job.wall_areas = {{{.wall = "south", .from = {"west", 0}, .width_m = 2, .top_m = 1.5}, "backsplash"}};
  Obstruction counter;
  counter.name = "counter";
  counter.width_m = 3;
  counter.depth_m = 0.6;
  counter.top_m = 0.9;
  counter.from[0] = {"west", 0};
  counter.from[1] = {"south", 0};
  job.obstructions = {counter};
  const Scene scene = build_scene(job, {});
  // What touches is told to 1e-5 m.
  CHECK(free_m2(named(scene.surfaces, "backsplash")) == Approx(2 * 0.6).epsilon(1e-4));
}

TEST_CASE("the mean height of a ceiling is the room's volume over its floor", "[room][exact]") {
  CHECK(mean_ceiling_m(build_scene(attic(2.4384, {}), {})) == 2.4384);
  // Knee walls of 1.5 m up to a level part at 2.5 m: a rectangle less two triangles of 1 m x 1 m, over 6 m.
  CHECK(mean_ceiling_m(build_scene(attic(2.5, k_gable), {})) == Approx((6 * 2.5 - 1) / 6).epsilon(1e-7));
}
