#include "evenlit/room/cross_section.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "evenlit/photometry/synthetic.hpp"

using namespace evenlit;

namespace {

/// 6 m by 4 m by 2.5 m, turned about the origin, two cans in a line 1 m and 3 m from the south wall, one aside.
Scene room_with_cans(double turn_deg, const std::vector<Slope>& slopes = {}) {
  const Eigen::Rotation2Dd turned(turn_deg * std::numbers::pi / 180);
  Job job;
  for (const auto& [x, y] : {std::pair{0.0, 0.0}, {6.0, 0.0}, {6.0, 4.0}, {0.0, 4.0}}) {
    job.room.corners_m.emplace_back(turned * Eigen::Vector2d(x, y));
  }
  job.room.wall_names = {"south", "east", "north", "west"};
  job.room.ceiling_m = 2.5;
  job.room.slopes = slopes;
  Scene scene = build_scene(job, {});
  scene.distributions = {synthetic_beam({900, 60}).value()};
  for (const auto& [x, y] : {std::pair{2.0, 1.0}, {2.0, 3.0}, {4.5, 1.0}}) {
    const Eigen::Vector2d plan_m = turned * Eigen::Vector2d(x, y);
    Luminaire luminaire;
    luminaire.position_m = {plan_m.x(), plan_m.y(), scene.ceiling.height_m(plan_m)};
    luminaire.room_from_luminaire.setIdentity();
    scene.luminaires.push_back(luminaire);
  }
  return scene;
}

}  // namespace

TEST_CASE("a section is square to the nearest wall and goes from wall to wall", "[room][exact]") {
  const double turn_deg = GENERATE(0.0, 25.0, -25.0);
  const CrossSection section = cross_section(room_with_cans(turn_deg), {}, 0);
  CHECK(section.length_m == Approx(4).epsilon(1e-12));
  CHECK(std::abs(signed_area(section.outline_m)) == Approx(4 * 2.5).epsilon(1e-9));
  CHECK(section.along.x() >= -1e-9);
  REQUIRE(section.row.size() == 2);  // the can aside is not in it
  const bool from_south = section.left_wall == 0;
  CHECK(section.row[from_south ? 0 : 1].luminaire == 0);
  CHECK(section.row[from_south ? 1 : 0].luminaire == 1);
  CHECK(section.row[0].at_m.x() == Approx(1).epsilon(1e-9));
  CHECK(section.row[1].at_m.x() == Approx(3).epsilon(1e-9));
}

// The cone of 60 degrees 2.5 m high is 2 tan 30 x 2.5 = 2.887 m wide at the floor, of which 1 m to the wall is inside;
// its angle is searched in steps of a tenth of a degree.
TEST_CASE("a beam ends where the room does", "[room][exact]") {
  const CrossSection section = cross_section(room_with_cans(0), {}, 0);
  REQUIRE(section.beam);
  REQUIRE(section.field);
  CHECK(section.beam->angle_deg == Approx(60).margin(0.1).epsilon(0));
  CHECK(section.field->angle_deg > section.beam->angle_deg);
  const Eigen::AlignedBox2d beam = bounds_of(section.beam->outline_m);
  CHECK(beam.min().x() == Approx(0).margin(1e-9).epsilon(0));
  CHECK(beam.max().x() == Approx(1 + 2.5 * std::tan(std::numbers::pi / 6)).margin(0.006).epsilon(0));
  CHECK(beam.min().y() == Approx(0).margin(1e-9).epsilon(0));
}

TEST_CASE("boxes are cut as far as the section runs through them, and the work plane has no points in them",
          "[room][exact]") {
  Scene scene = room_with_cans(0);
  place_boxes(scene, {{.name = "table", .centre_m = {2, 2}, .half_m = {0.5, 0.3}, .bottom_m = 0, .top_m = 1},
                      {.name = "shelf", .centre_m = {5, 2}, .half_m = {0.5, 0.3}, .bottom_m = 0, .top_m = 1}});
  const CrossSection section = cross_section(scene, {}, 0);
  REQUIRE(section.boxes.size() == 1);
  CHECK(section.boxes[0].name == "table");
  const Eigen::AlignedBox2d box = bounds_of(section.boxes[0].outline_m);
  CHECK((box.min() - Eigen::Vector2d(1.7, 0)).norm() < 1e-9);
  CHECK((box.max() - Eigen::Vector2d(2.3, 1)).norm() < 1e-9);
  CHECK(std::ranges::none_of(section.stations_m, [](double x_m) { return x_m > 1.7 && x_m < 2.3; }));
  CHECK(section.stations_m.size() == 80 - 12);
}

TEST_CASE("slopes bound a section", "[room][exact]") {
  const CrossSection section = cross_section(room_with_cans(0, {{"south", 1.5, 0.5}}), {}, 0);
  // 1.5 m over the south wall, level at 2.5 m from 2 m on.
  CHECK(std::abs(signed_area(section.outline_m)) == Approx(2 * 2 + 2 * 2.5).epsilon(1e-9));
  CHECK(section.row[0].at_m.y() == Approx(2).epsilon(1e-9));
}

TEST_CASE("the middle can is the nearest to the middle of the plan, the first of several", "[room][exact]") {
  Scene scene = room_with_cans(0);
  CHECK(middle_luminaire(scene) == 0);
  scene.luminaires[2].position_m.y() = 2;
  CHECK(middle_luminaire(scene) == 0);
  scene.luminaires[2].position_m.x() = 3.5;
  CHECK(middle_luminaire(scene) == 2);
}
