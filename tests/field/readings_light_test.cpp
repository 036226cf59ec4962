#include "evenlit/field/readings_light.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "mesh.hpp"
#include "rooms.hpp"

using namespace evenlit;
using namespace evenlit::testing;
using Eigen::Vector3d;

namespace {

/// A job over the plan of `box_room(5, 4, 2.5)`, to place areas and points in.
Job job_of_5_by_4() {
  Job job;
  job.room = {"Room", {{0, 0}, {5, 0}, {5, 4}, {0, 4}}, {"south", "east", "north", "west"}, 2.5};
  return job;
}

NamedPoint point(const std::string& name, const Vector3d& at, decltype(NamedPoint::reads) reads) {
  NamedPoint named;
  named.name = name;
  named.from[0] = {"west", at.x()};
  named.from[1] = {"south", at.y()};
  named.height_m = at.z();
  named.reads = reads;
  return named;
}

Grid grid_of(const Job& job) {
  const auto grid = work_plane_grid(job.room, job.work_plane, {});
  REQUIRE(grid);
  return *grid;
}

RoomLight light_of(const Job& job, const Scene& scene, bool surfaces = false) {
  auto readings = readings_of(job, scene);
  REQUIRE(readings);
  if (surfaces) add_surfaces(*readings, scene);
  return room_light(scene, grid_of(job), {}, std::move(*readings));
}

const AreaLight& surface_named(const ReadingsLight& light, const std::string& name) {
  const auto& surfaces = light.readings.surfaces;
  const auto found = std::ranges::find(surfaces, name, &AreaReading::name);
  REQUIRE(found != surfaces.end());
  return light.surfaces[found - surfaces.begin()];
}

}  // namespace

// The closed form of a point source: I sin(theta) / (pi d^2), theta between the vertical and the direction to it
// (CIE S 017:2020, "cylindrical illuminance"). The facets add at most 0.061 %; in a black room nothing else does.
TEST_CASE("readings: mean cylindrical illuminance of a point source", "[field][formula]") {
  Scene scene = box_room(5, 4, 2.5, {0, 0, 0});
  const Vector3d lamp(2.2, 1.7, 2.5);
  add_point(scene, lamp, isotropic(1000));
  const double candela = 1000 / (4 * std::numbers::pi);
  Job job = job_of_5_by_4();
  const std::vector<Vector3d> places{{1, 1, 1.2}, {2.3, 1.8, 1.2}, {4.5, 3.1, 0.4}, {0.2, 3.9, 2.3}};
  for (std::size_t i = 0; i < places.size(); ++i) job.points.push_back(point(std::to_string(i), places[i], Around{}));
  const RoomLight light = light_of(job, scene);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const Vector3d ray = lamp - places[i];
    const double expected = candela * ray.head<2>().norm() / ray.norm() / (std::numbers::pi * ray.squaredNorm());
    CHECK(light.readings.points[i].value == Approx(expected).epsilon(k_cylinder_error));
    CHECK(light.readings.points[i].error >= k_cylinder_error * light.readings.points[i].value);
  }
}

// In a closed room of one reflectance rho with an even exitance, luminance is everywhere the same. An integrating box
// is not even, but its average exitance is: flux x rho / (1 - rho) / area, and the average illuminance flux / (1 - rho)
// / area (Ulbricht). The midpoints of patches of 0.3 m leave some percent at the lamp's own hot spots.
TEST_CASE("readings: surfaces add up to all the light there is", "[field][exact]") {
  const double rho = 0.6;
  Scene scene = box_room(5, 4, 2.5, {rho, rho, rho});
  add_point(scene, {2.5, 2, 1.2}, isotropic(3000));
  const Job job = job_of_5_by_4();
  const RoomLight light = light_of(job, scene, true);
  double area = 0;
  double lumens = 0;
  double candela = 0;
  for (std::size_t i = 0; i < light.readings.surfaces.size(); ++i) {
    const double area_m2 = light.readings.readings.surfaces[i].area_m2;
    area += area_m2;
    lumens += area_m2 * light.readings.surfaces[i].average_lx.value;
    candela += area_m2 * light.readings.surfaces[i].luminance_cd_m2->value;
  }
  REQUIRE(light.readings.surfaces.size() == 6);
  CHECK(area == Approx(2 * (5 * 4 + 5 * 2.5 + 4 * 2.5)).epsilon(1e-12));
  CHECK(lumens == Approx(3000 / (1 - rho)).epsilon(0.01));
  CHECK(candela == Approx(lumens * rho / std::numbers::pi).epsilon(1e-12));
}

TEST_CASE("readings: surfaces of a furnished room add up too, an obstruction's faces are one", "[field][exact]") {
  const double rho = 0.5;
  Scene scene = box_room(5, 4, 2.5, {rho, rho, rho});
  Box island{.name = "island", .centre_m = {2, 2}, .half_m = {0.5, 0.8}, .bottom_m = 0, .top_m = 0.9};
  Box shelf{.name = "shelf", .centre_m = {4.8, 2}, .half_m = {0.2, 0.6}, .bottom_m = 1, .top_m = 1.4};
  place_boxes(scene, {island, shelf});
  add_point(scene, {3.2, 1.2, 1.9}, isotropic(3000));
  const Job job = job_of_5_by_4();
  const RoomLight light = light_of(job, scene, true);
  double lumens = 0;
  for (std::size_t i = 0; i < light.readings.surfaces.size(); ++i) {
    lumens += light.readings.readings.surfaces[i].area_m2 * light.readings.surfaces[i].average_lx.value;
  }
  REQUIRE(light.readings.surfaces.size() == 8);
  // As above; the shadows' edges add to what midpoints leave.
  CHECK(lumens == Approx(3000 / (1 - rho)).epsilon(0.015));
  // Four sides and the top of the island; five faces of the shelf, the sixth is on the east wall.
  CHECK(light.readings.readings.surfaces[6].area_m2 == Approx(1 * 1.6 + 0.9 * 2 * (1 + 1.6)).epsilon(1e-9));
  CHECK(light.readings.readings.surfaces[7].area_m2 == Approx(2 * 0.4 * 1.2 + 0.4 * (1.2 + 2 * 0.4)).epsilon(1e-7));
  CHECK(surface_named(light.readings, "island").minimum_lx.value <
        surface_named(light.readings, "island").average_lx.value);
}

// The last wall and the first wall area follow each other in the scene, as the faces of one obstruction do.
TEST_CASE("readings: a wall area that is named like its wall is a surface of its own", "[field][exact]") {
  Job job = job_of_5_by_4();
  job.finishes.walls = 0.5;
  const WallRectangle door{.wall = "west", .from = {"south", 1}, .width_m = 1.5, .top_m = 2};
  job.wall_areas = {WallArea{door}};
  job.wall_areas.front().name = "west";
  job.wall_areas.front().reflectance = 0.1;
  Readings readings;
  add_surfaces(readings, build_scene(job, {}));
  REQUIRE(readings.surfaces.size() == 7);
  const AreaReading& wall = readings.surfaces[5];
  const AreaReading& area = readings.surfaces[6];
  CHECK(wall.name == "west");
  CHECK(area.name == "west");
  CHECK(wall.area_m2 == Approx(4 * 2.5 - 1.5 * 2).epsilon(1e-7));  // outlines lie on steps of nanometres
  CHECK(area.area_m2 == Approx(1.5 * 2).epsilon(1e-7));
  CHECK((wall.reflectance.array() == 0.5).all());
  CHECK((area.reflectance.array() == 0.1).all());
}

TEST_CASE("readings: a level area over the whole plane reads what the work plane reads", "[field][property]") {
  Scene scene = box_room(5, 4, 2.5);
  add_point(scene, {1.5, 2, 2.5}, cosine_power(300, 2));
  add_point(scene, {3.5, 2, 2.5}, cosine_power(300, 2));
  scene.luminaires[1].level = 0.4;
  Job job = job_of_5_by_4();
  job.work_plane.spacing_m = 0.5;
  LevelRectangle level;
  level.from[0] = {"west", 0};
  level.from[1] = {"south", 0};
  level.width_m = 5;
  level.depth_m = 4;
  level.height_m = job.work_plane.height_m;
  TaskArea area;
  area.name = "all";
  area.shape = level;
  area.spacing_m = 0.5;
  job.task_areas = {area};
  const RoomLight light = light_of(job, scene);
  const AreaLight& all = light.readings.task_areas[0];
  const Statistics& plane = light.work_plane.statistics;
  // The same points in the same order; sums differ by rounding in single precision.
  CHECK(all.average_lx.value == Approx(plane.average_lx).epsilon(1e-6));
  CHECK(all.minimum_lx.value == Approx(plane.minimum_lx).epsilon(1e-6));
  CHECK(all.maximum_lx.value == Approx(plane.maximum_lx).epsilon(1e-6));
  CHECK(all.uniformity_min_avg == Approx(plane.uniformity_min_avg).epsilon(1e-6));
  CHECK(light.readings.response.direct_lx.rows() == 80);
}

// All that is asked for settles how finely the room is cut; what was asked before stays what it was within its error.
TEST_CASE("readings: they change nothing of the work plane, and surfaces nothing of the others", "[field][property]") {
  Scene scene = box_room(5, 4, 2.5);
  add_point(scene, {1.5, 2, 2.5}, cosine_power(300, 2));
  Job job = job_of_5_by_4();
  const RoomLight bare = light_of(job, scene);
  CHECK(bare.readings.task_areas.empty());
  job.points = {point("down", {2, 2, 1}, Facing{180, 0}), point("east", {2, 2, 1}, Facing{90, 0})};
  const RoomLight with_points = light_of(job, scene);
  const RoomLight with_all = light_of(job, scene, true);
  const Field& with = with_points.work_plane.field;
  const Field& without = bare.work_plane.field;
  CHECK(((with.total_lx - without.total_lx).array().abs() <= (with.error_lx + without.error_lx).array()).all());
  for (int i = 0; i < 2; ++i) {
    const Estimate& among_all = with_all.readings.points[i];
    const Estimate& alone = with_points.readings.points[i];
    CHECK(among_all.value == Approx(alone.value).margin(among_all.error + alone.error).epsilon(0));
  }
}

// Luminance is linear in the light: of a wall of reflectance rho it is rho E / pi, with E as a facet on it reads.
TEST_CASE("readings: the luminance that is seen is that of the facet there", "[field][exact]") {
  Scene scene = box_room(5, 4, 2.5);
  add_point(scene, {1.5, 2, 2.5}, cosine_power(300, 2));
  Job job = job_of_5_by_4();
  job.points = {point("view", {1, 1, 1.2}, Looking{0, 0}), point("there", {5, 1, 1.2}, Facing{90, 180})};
  const auto points = light_of(job, scene).readings.points;
  // The facets' places differ by 1e-15 m, which single precision may round apart.
  CHECK(points[1].value > 1);
  CHECK(points[0].value == Approx(0.5 / std::numbers::pi * points[1].value).epsilon(1e-6));
}

// Halving the patches must not move a reading by more than the error that it states.
TEST_CASE("readings: the stated error holds against a finer mesh", "[field][property]") {
  Scene scene = box_room(5, 4, 2.5);
  Box island{.name = "island", .centre_m = {2, 2}, .half_m = {0.5, 0.8}, .bottom_m = 0, .top_m = 0.9};
  place_boxes(scene, {island});
  add_point(scene, {1.5, 1, 2.5}, cosine_power(300, 2));
  Job job = job_of_5_by_4();
  job.points = {point("up", {4, 3, 0.8}, Facing{0, 0}), point("down", {3, 1, 0.7}, Facing{180, 0}),
                point("west", {4, 1, 1.2}, Facing{90, 180}), point("around", {3, 3, 1.2}, Around{}),
                point("view", {3, 3, 1.2}, Looking{200, -5})};
  const RoomLight light = light_of(job, scene);
  const Readings& readings = light.readings.readings;
  const Response fine = response(scene, readings.receivers, k_fine);
  const Eigen::VectorXd total = total_lx(fine);
  for (std::size_t i = 0; i < readings.points.size(); ++i) {
    const Reading& reading = readings.points[i].value;
    const double better = reading.weights.dot(total.segment(reading.first, reading.count()));
    CHECK(std::abs(light.readings.points[i].value - better) <= light.readings.points[i].error);
  }
}
