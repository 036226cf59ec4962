#include "evenlit/room/scene.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace evenlit;
using Eigen::Vector3d;

namespace {

Job small_job() {
  Job job;
  job.room = {.name = "Closet",
              .corners_m = {{0, 0}, {2, 0}, {2, 1.5}, {0, 1.5}},
              .wall_names = {"south", "east", "north", "west"},
              .ceiling_m = 2.4};
  job.finishes.wall["east"] = 0.3;
  CanType type;
  type.name = "can";
  type.light_loss_factor = 0.9;
  job.can_types.push_back(type);
  Can can;
  can.type = "can";
  can.from[0] = {"west", 0.5};
  can.from[1] = {"north", 0.25};
  can.level = 0.4;
  job.cans.push_back(can);
  return job;
}

PhotometricFile small_photometry() {
  PhotometricFile file;
  file.lamp_sets[0].watts = 12;
  file.opening = {.shape = Opening::Shape::disc, .width_m = 0.1, .length_m = 0.1, .height_m = 0};
  file.distribution = {.gamma_deg = {0, 90}, .c_deg = {0}, .candela = Eigen::ArrayXXd::Constant(2, 1, 100)};
  return file;
}

}  // namespace

TEST_CASE("a room has a floor, a ceiling and its walls, all facing inward", "[room][exact]") {
  const Scene scene = build_scene(small_job(), {small_photometry()});
  REQUIRE(scene.surfaces.size() == 6);
  const Vector3d middle(1, 0.75, 1.2);
  for (const auto& surface : scene.surfaces) {
    CAPTURE(surface.name);
    const auto& c = surface.corners_m;
    CHECK(surface.normal.dot(middle - c[0]) > 0);
    CHECK((c[1] - c[0]).cross(c[2] - c[1]).normalized().isApprox(surface.normal, 1e-12));  // counter-clockwise
  }
  CHECK(scene.surfaces[0].reflectance == 0.2);
  CHECK(scene.surfaces[1].reflectance == 0.8);
  CHECK(scene.surfaces[2].reflectance == 0.5);
  CHECK(scene.surfaces[3].reflectance == 0.3);
}

TEST_CASE("a can stands where the tape says, with its type's light, power and opening", "[room][exact]") {
  Job job = small_job();
  const Luminaire from_file = build_scene(job, {small_photometry()}).luminaires[0];
  CHECK(from_file.position_m.isApprox(Vector3d(0.5, 1.25, 2.4)));
  CHECK(from_file.output == 0.9);
  CHECK(from_file.level == 0.4);
  CHECK(from_file.watts == 12);
  CHECK(from_file.opening.width_m == 0.1);

  job.can_types[0].watts = 9;
  job.can_types[0].opening = OpeningSize{.width_m = 0.2, .length_m = 0.3};
  const Luminaire from_job = build_scene(job, {small_photometry()}).luminaires[0];
  CHECK(from_job.watts == 9);
  CHECK(from_job.opening.shape == Opening::Shape::rectangle);
  CHECK(from_job.opening.length_m == 0.3);

  job.can_types[0].opening = OpeningSize{.width_m = 0.2};
  const Luminaire round = build_scene(job, {small_photometry()}).luminaires[0];
  CHECK(round.opening.shape == Opening::Shape::disc);
  CHECK(round.opening.width_m == 0.2);
  CHECK(round.opening.length_m == 0.2);
}

TEST_CASE("aiming follows the smallest rotation from straight down", "[room][exact]") {
  const Vector3d down(0, 0, -1);
  CHECK(room_from_luminaire(0, 0, 0) == Eigen::Matrix3d::Identity());
  CHECK(room_from_luminaire(0, 123, 0).isApprox(Eigen::Matrix3d::Identity(), 1e-15));
  CHECK(room_from_luminaire(90, 0, 0) * down == Vector3d(1, 0, 0));
  CHECK(room_from_luminaire(90, 90, 0) * down == Vector3d(0, 1, 0));
  CHECK((room_from_luminaire(180, 0, 0) * down) == Vector3d(0, 0, 1));

  // The smallest rotation leaves the horizontal axis square to the tilt where it was.
  const Vector3d axis(-std::sin(0.7), std::cos(0.7), 0);
  const double toward_deg = 0.7 * 180 / std::numbers::pi;
  CHECK((room_from_luminaire(35, toward_deg, 0) * axis).isApprox(axis, 1e-12));
  CHECK(room_from_luminaire(35, toward_deg, 20).determinant() == Approx(1).epsilon(1e-12));
}

TEST_CASE("rotation turns horizontal angle 0 counter-clockwise seen from above", "[room][exact]") {
  CHECK(room_from_luminaire(0, 0, 90) * Vector3d::UnitX() == Vector3d(0, 1, 0));
  CHECK(room_from_luminaire(0, 0, -90) * Vector3d::UnitX() == Vector3d(0, -1, 0));
  CHECK(room_from_luminaire(0, 45, 90).isApprox(room_from_luminaire(0, 0, 90), 1e-15));
}

TEST_CASE("a can on a slope is at the ceiling's height over its place, aimed as its job says", "[room][exact]") {
  Job job = small_job();
  job.room.slopes = {{"west", 1.5, 1}};  // over the can, 0.5 m from the west wall, at 2 m
  job.room.ceiling_m.reset();
  const Luminaire plumb = build_scene(job, {small_photometry()}).luminaires[0];
  CHECK(plumb.position_m.isApprox(Vector3d(0.5, 1.25, 2), 1e-15));
  CHECK(plumb.room_from_luminaire == Eigen::Matrix3d::Identity());

  job.cans[0].is_square = true;
  const Luminaire square = build_scene(job, {small_photometry()}).luminaires[0];
  CHECK((square.room_from_luminaire * -Vector3d::UnitZ()).isApprox(Vector3d(1, 0, -1).normalized(), 1e-15));

  job.cans[0].drop_m = 0.5;
  CHECK(build_scene(job, {small_photometry()}).luminaires[0].position_m.z() == Approx(1.5).epsilon(1e-15));
  job.cans[0].drop_m.reset();
  job.cans[0].height_m = 1;
  CHECK(build_scene(job, {small_photometry()}).luminaires[0].position_m.z() == 1);
}
