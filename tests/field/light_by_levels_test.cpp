#include "evenlit/field/light_by_levels.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>
#include <cmath>

#include "evenlit/field/readings_light.hpp"
#include "rooms.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

/// 5 m x 4 m with three unlike luminaires, a desk, a wall area, and a box.
struct LevelledRoom {
  Job job;
  Scene scene = box_room(5, 4, 2.5, {0.2, 0.8, 0.5});
  Grid grid;
  Readings readings;
  Response response;

  LevelledRoom() {
    job.room = {"Room", {{0, 0}, {5, 0}, {5, 4}, {0, 4}}, {"south", "east", "north", "west"}, 2.5};
    place_boxes(scene, {{.name = "island", .centre_m = {2, 2}, .half_m = {0.5, 0.8}, .bottom_m = 0, .top_m = 0.6}});
    add_point(scene, {1.2, 1, 2.4}, isotropic(900));
    add_point(scene, {3.7, 1.4, 2.2}, isotropic(400));
    add_point(scene, {2.6, 3.1, 1.9}, isotropic(1300));
    job.task_areas = {{.name = "desk", .shape = PlaneCorners{{3, 1, 0.8}, {4.5, 1, 0.8}, {4.5, 2, 0.8}, {3, 2, 0.8}}},
                      {.name = "picture", .shape = PlaneCorners{{1, 4, 1}, {2, 4, 1}, {2, 4, 2}, {1, 4, 2}}}};
    grid = work_plane_grid(job.room, job.work_plane, {}).value();
    readings = readings_of(job, scene).value();
    add_surfaces(readings, scene);
    response = evenlit::response(scene, receivers_of(grid, readings));
  }

  [[nodiscard]] LightByLevels by_levels() const {
    return {response, static_cast<Eigen::Index>(grid.points_m.size()), readings};
  }
};

}  // namespace

// The same sums in another order: apart by rounding only.
TEST_CASE("light by levels: what the room's light is at these levels", "[field][property]") {
  LevelledRoom room;
  const LightByLevels by_levels = room.by_levels();
  for (const Eigen::Vector3d& levels : {Eigen::Vector3d(1, 1, 1), Eigen::Vector3d(0.01, 0, 0.3),
                                        Eigen::Vector3d(0, 0.77, 0), Eigen::Vector3d(0, 0, 0)}) {
    for (int i = 0; i < 3; ++i) room.scene.luminaires[static_cast<std::size_t>(i)].level = levels[i];
    const RoomLight whole = room_light(room.scene, room.grid, {}, room.readings, room.response);
    const LevelLight light = by_levels.at(levels);
    const auto same = [](double value) { return Approx(value).epsilon(1e-12); };
    const Eigen::VectorXd& field = whole.work_plane.field.total_lx;
    for (Eigen::Index i = 0; i < field.size(); ++i) CHECK(light.total_lx[i] == same(field[i]));
    std::vector<AreaLight> areas = whole.readings.task_areas;
    areas.insert(areas.end(), whole.readings.surfaces.begin(), whole.readings.surfaces.end());
    REQUIRE(light.average_lx.size() == static_cast<Eigen::Index>(1 + areas.size()));
    CHECK(light.average_lx[0] == same(whole.work_plane.statistics.average_lx));
    CHECK(light.minimum_lx[0] == same(whole.work_plane.statistics.minimum_lx));
    for (std::size_t i = 0; i < areas.size(); ++i) {
      const auto row = static_cast<Eigen::Index>(i + 1);
      CHECK(light.average_lx[row] == same(areas[i].average_lx.value));
      CHECK(light.minimum_lx[row] == same(areas[i].minimum_lx.value));
    }
  }
}

TEST_CASE("light by levels: of a room of which only the work plane is read", "[field][property]") {
  const LevelledRoom room;
  const auto points = static_cast<Eigen::Index>(room.grid.points_m.size());
  const LevelLight light =
      LightByLevels(rows_of(room.response, 0, points), points, {}).at(Eigen::Vector3d(1, 0.5, 0.25));
  CHECK(light.total_lx.size() == points);
  REQUIRE(light.average_lx.size() == 1);
  CHECK(light.average_lx[0] == Approx(light.total_lx.mean()).epsilon(1e-12));
  CHECK(light.minimum_lx[0] == light.total_lx.minCoeff());
}
