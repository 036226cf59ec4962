#include "evenlit/room/readings.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "evenlit/room/grid.hpp"
#include "room/furnished_room.hpp"

using namespace evenlit;
using Eigen::Vector3d;

namespace {

TaskArea rectangle(Taped first, Taped second, double width_m, double depth_m, double height_m) {
  LevelRectangle level;
  level.from[0] = std::move(first);
  level.from[1] = std::move(second);
  level.width_m = width_m;
  level.depth_m = depth_m;
  level.height_m = height_m;
  TaskArea area;
  area.name = "desk";
  area.shape = level;
  area.origin.place = {"room.toml", 7, 1, 14};
  return area;
}

TaskArea polygon(PlaneCorners corners) {
  TaskArea area;
  area.name = "picture";
  area.shape = std::move(corners);
  area.origin.place = {"room.toml", 7, 1, 14};
  return area;
}

NamedPoint point(double east_m, double north_m, double height_m, decltype(NamedPoint::reads) reads) {
  NamedPoint named;
  named.name = "chair";
  named.from[0] = {"west", east_m};
  named.from[1] = {"south", north_m};
  named.height_m = height_m;
  named.reads = reads;
  named.origin.place = {"room.toml", 9, 1, 10};
  return named;
}

Result<Readings> result_with(std::vector<TaskArea> areas, std::vector<NamedPoint> points) {
  Job job = furnished_job();
  job.task_areas = std::move(areas);
  job.points = std::move(points);
  return readings_of(job, build_scene(job, {}));
}

Readings readings_with(std::vector<TaskArea> areas, std::vector<NamedPoint> points) {
  auto readings = result_with(std::move(areas), std::move(points));
  INFO((readings ? std::string{} : text_of(readings.error())));
  REQUIRE(readings);
  return *readings;
}

std::string message(std::vector<TaskArea> areas, std::vector<NamedPoint> points) {
  const auto readings = result_with(std::move(areas), std::move(points));
  REQUIRE_FALSE(readings);
  return text_of(readings.error());
}

bool is_near(const Vector3d& a, const Vector3d& b) { return (a - b).norm() < 1e-12; }  // lengths of a few metres

}  // namespace

TEST_CASE("readings: a task area's points are the centres of equal cells", "[room][exact]") {
  TaskArea area = rectangle({"west", 0.5}, {"south", 2}, 2, 1, 0.8);
  area.spacing_m = 0.25;
  const Readings readings = readings_with({area}, {});
  REQUIRE(readings.receivers.size() == 8 * 4);
  CHECK(is_near(readings.receivers.front().position_m, {0.625, 2.125, 0.8}));
  CHECK(is_near(readings.receivers.back().position_m, {2.375, 2.875, 0.8}));
  for (const Receiver& receiver : readings.receivers) CHECK(is_near(receiver.normal, Vector3d::UnitZ()));
  CHECK(readings.task_areas[0].area_m2 == Approx(2).epsilon(1e-12));
  CHECK(readings.task_areas[0].average.weights.sum() == Approx(1).epsilon(1e-12));
}

TEST_CASE("readings: an area's grid follows EN 12464-1 and has at least three rows and columns", "[room][formula]") {
  CHECK(readings_with({rectangle({"west", 0}, {"south", 2}, 0.1, 0.1, 0.8)}, {}).receivers.size() == 9);
  // 0.2 x 5^(log10 3.5) = 0.480 m: 8 columns; rows of 1 m / 3.
  REQUIRE(std::ceil(3.5 / recommended_spacing_m(3.5)) == 8);
  CHECK(readings_with({rectangle({"west", 0}, {"south", 2}, 3.5, 1, 0.8)}, {}).receivers.size() == 8 * 3);
}

TEST_CASE("readings: an upright area is counted from the side that sees its corners counter-clockwise",
          "[room][exact]") {
  // On the south wall, seen from the room: from the left (east) to the right (west).
  const Readings readings = readings_with({polygon({{3, 0, 1}, {1, 0, 1}, {1, 0, 2}, {3, 0, 2}})}, {});
  for (const Receiver& receiver : readings.receivers) {
    CHECK(is_near(receiver.normal, Vector3d::UnitY()));
    CHECK(receiver.position_m.y() == Approx(0).margin(1e-12));
  }
}

TEST_CASE("readings: points inside of an obstruction do not count, those on its top do", "[room][exact]") {
  // The block stands at x 2...3, y 0.5...1.5, up to 1 m.
  TaskArea area = rectangle({"west", 1}, {"south", 0.5}, 2, 1, 0.9);
  area.spacing_m = 0.1;
  CHECK(readings_with({area}, {}).receivers.size() == 100);
  std::get<LevelRectangle>(area.shape).height_m = 1;
  CHECK(readings_with({area}, {}).receivers.size() == 200);
}

TEST_CASE("readings: an area that the tape put 1 mm inside of a wall or a box is counted before it", "[room][exact]") {
  const auto at_y = [](double y) { return readings_with({polygon({{3, y, 1}, {1, y, 1}, {1, y, 2}, {3, y, 2}})}, {}); };
  CHECK(at_y(-0.0009).receivers.size() == at_y(0).receivers.size());
  CHECK(at_y(-0.0009).receivers[0].position_m.y() == Approx(0.0001).epsilon(1e-9));
  const Readings on_block = readings_with({rectangle({"west", 2}, {"south", 0.5}, 1, 1, 0.9995)}, {});
  CHECK(on_block.receivers[0].position_m.z() == Approx(1.0005).epsilon(1e-12));
  CHECK(on_block.receivers.size() ==
        readings_with({rectangle({"west", 2}, {"south", 0.5}, 1, 1, 1)}, {}).receivers.size());
}

TEST_CASE("readings: what a point faces", "[room][exact]") {
  const Readings readings = readings_with({}, {point(1, 3, 1.2, Facing{0, 0}), point(1, 3, 1.2, Facing{180, 0}),
                                               point(1, 3, 1.2, Facing{90, 90}), point(1, 3, 1.2, Facing{30, 180})});
  CHECK(is_near(readings.receivers[0].normal, {0, 0, 1}));
  CHECK(is_near(readings.receivers[1].normal, {0, 0, -1}));
  CHECK(is_near(readings.receivers[2].normal, {0, 1, 0}));
  CHECK(is_near(readings.receivers[3].normal, {-0.5, 0, std::sqrt(0.75)}));
  CHECK(is_near(readings.receivers[3].position_m, {1, 3, 1.2}));
}

// Mean cylindrical illuminance of a point source: I sin(theta) / (pi d^2), theta from the vertical. What the facets
// read over it depends only on the azimuth; the header derives how far they can be off.
TEST_CASE("readings: facets around read the mean of all vertical directions", "[room][formula]") {
  const Readings readings = readings_with({}, {point(1, 3, 1.2, Around{})});
  const Reading& around = readings.points[0].value;
  REQUIRE(around.count() == k_cylinder_facets);
  CHECK(readings.points[0].quantity == Quantity::cylindrical_illuminance);
  const double a = std::numbers::pi / (2 * k_cylinder_facets);
  double least = 1;
  double most = -1;
  for (int i = 0; i < 3600; ++i) {
    const double azimuth = i * std::numbers::pi / 1800;
    const Vector3d light(std::cos(azimuth), std::sin(azimuth), 0);
    double mean = 0;
    for (int facet = 0; facet < k_cylinder_facets; ++facet) {
      mean += around.weights[facet] * std::max(0.0, readings.receivers[facet].normal.dot(light));
    }
    least = std::min(least, mean * std::numbers::pi - 1);
    most = std::max(most, mean * std::numbers::pi - 1);
  }
  // Steps of 0.1 degrees miss the extremes of a parabola by (0.05 deg)^2 / 2 = 4e-7, those of a kink by 1e-5.
  CHECK(least == Approx(a / std::tan(a) - 1).margin(1e-5).epsilon(0));
  CHECK(most == Approx(a / std::sin(a) - 1).margin(1e-6).epsilon(0));
  CHECK(std::max(-least, most) <= k_cylinder_error);
}

// Under an upper half-space of one luminance L a vertical facet reads pi L / 2 and the horizontal one pi L.
TEST_CASE("readings: facets around read half of what the level facet reads under a uniform sky", "[room][formula]") {
  const Readings readings = readings_with({}, {point(1, 3, 1.2, Around{})});
  constexpr int k_rings = 90;
  constexpr int k_azimuths = 720;
  double around = 0;
  double level = 0;
  for (int ring = 0; ring < k_rings; ++ring) {
    const double sine = (ring + 0.5) / k_rings;  // of the altitude: rings of one solid angle
    for (int i = 0; i < k_azimuths; ++i) {
      const double azimuth = (i + 0.5) * 2 * std::numbers::pi / k_azimuths;
      const double cosine = std::sqrt(1 - sine * sine);
      const Vector3d light(cosine * std::cos(azimuth), cosine * std::sin(azimuth), sine);
      level += std::max(0.0, light.z());
      for (int facet = 0; facet < k_cylinder_facets; ++facet) {
        around += readings.points[0].value.weights[facet] * std::max(0.0, readings.receivers[facet].normal.dot(light));
      }
    }
  }
  // The midpoint rule over the rings leaves 1.3e-4 where sqrt(1 - s^2) ends upright, over the azimuths far less.
  CHECK(around / level == Approx(0.5).epsilon(2e-4));
}

TEST_CASE("readings: luminance is reflectance over pi of what is seen", "[room][exact]") {
  Job job = furnished_job();
  job.finishes.wall["east"] = 0.25;
  job.points = {point(1, 3, 1.2, Looking{0, 0}), point(1, 1, 0.5, Looking{0, 0}), point(1, 3, 1.2, Looking{0, -90})};
  const auto readings = readings_of(job, build_scene(job, {}));
  REQUIRE(readings);
  CHECK(readings->points[0].surface == "east");
  CHECK(readings->points[0].value.weights[0] == 0.25 / std::numbers::pi);
  CHECK(is_near(readings->receivers[0].position_m, {4, 3, 1.2}));
  CHECK(is_near(readings->receivers[0].normal, {-1, 0, 0}));
  CHECK(readings->points[1].surface == "block");
  CHECK(readings->points[1].value.weights[0] == 0.5 / std::numbers::pi);
  CHECK(readings->points[2].surface == "floor");
}

TEST_CASE("reading mistakes: all at once", "[room][exact]") {
  CHECK(message({rectangle({"west", 2.1}, {"south", 0.6}, 0.5, 0.5, 0.5)}, {point(2.5, 1, 0.5, Facing{})}) ==
        "room.toml:7:1: no grid point of task area \"desk\" is in the open\n"
        "hint: choose another place, or a closer spacing\n"
        "room.toml:9:1: point \"chair\" is inside obstruction \"block\"\n"
        "hint: light is read in the open; choose another place or height\n");
}

TEST_CASE("reading mistakes: an area that faces into a wall or a box", "[room][exact]") {
  const std::string text =
      "room.toml:7:1: task area \"picture\" faces into what is behind it\n"
      "hint: list its corners the other way round: counter-clockwise seen from the side on which light is counted\n";
  CHECK(message({polygon({{1, 0, 1}, {3, 0, 1}, {3, 0, 2}, {1, 0, 2}})}, {}) == text);
  CHECK(message({polygon({{2, 0.5, 0.2}, {2, 1.5, 0.2}, {2, 1.5, 0.8}, {2, 0.5, 0.8}})}, {}) == text);
  CHECK(message({polygon({{1, 3, 0}, {1, 3.5, 0}, {2, 3, 0}})}, {}) == text);
}

TEST_CASE("reading mistakes: more receivers than 10000", "[room][exact]") {
  TaskArea area = rectangle({"west", 0}, {"south", 2}, 4, 2, 0.8);
  area.spacing_m = 0.01;
  CHECK(message({area}, {}) ==
        "room.toml:7:1: a grid of 400 x 200 points on task area \"desk\" is more than 10000\n"
        "hint: choose a wider spacing of its grid\n");
  const std::string hint =
      "hint: choose wider spacings of the task areas' grids, or fewer areas and points; a point that faces around "
      "takes 37\n";
  area.spacing_m = 0.03;  // 134 x 67
  CHECK(message({area, area}, {}) ==
        "room.toml: the task areas and points of the job count light at 17956 places, more than 10000\n" + hint);
  CHECK(message({}, std::vector(271, point(1, 3, 1, Around{}))) ==
        "room.toml: the task areas and points of the job count light at 10027 places, more than 10000\n" + hint);
}
