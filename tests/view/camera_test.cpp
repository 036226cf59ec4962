#include "evenlit/view/camera.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "room/furnished_room.hpp"

using namespace evenlit;
using Eigen::Vector2d;
using Eigen::Vector3d;

namespace {

constexpr double k_rad = std::numbers::pi / 180;
constexpr PictureSize k_size{400, 300};

}  // namespace

// A pinhole: a point a to the right and b above the axis, d ahead, is at f a / d, f b / d from the picture's middle;
// the side of the picture is where a / d is the tangent of half the angle. Rounding alone.
TEST_CASE("a point is where the lines of perspective put it", "[view][exact]") {
  const Camera camera = camera_at({1, 2, 1.5}, {.toward_deg = 0, .tilt_deg = 0}, 90, k_size);
  const auto place = [&](const Vector3d& point) { return camera.place_px(point).value(); };
  CHECK((place({3, 2, 1.5}) - Vector2d(200, 150)).norm() < 1e-9);
  CHECK((place({3, 0, 1.5}) - Vector2d(400, 150)).norm() < 1e-9);  // 45 degrees to the right
  CHECK((place({3, 3, 1.5}) - Vector2d(100, 150)).norm() < 1e-9);  // half as far to the left
  CHECK((place({5, 2, 2.5}) - Vector2d(200, 100)).norm() < 1e-9);  // 1 m up in 4 m
  CHECK_FALSE(camera.place_px({1, 3, 1.5}));                       // beside the eye
  CHECK_FALSE(camera.place_px({0, 2, 1.5}));                       // behind it
  CHECK((camera.direction({400, 150}) - Vector3d(1, -1, 0).normalized()).norm() < 1e-12);
}

TEST_CASE("a ray of a place leads back to the place", "[view][property]") {
  std::mt19937_64 random(3);
  std::uniform_real_distribution<double> unit(0, 1);
  for (int i = 0; i < 300; ++i) {
    const Looking looking{.toward_deg = 360 * unit(random), .tilt_deg = 180 * unit(random) - 90};
    const Camera camera = camera_at({1, 2, 1.5}, looking, 10 + 110 * unit(random), k_size);
    CHECK(camera.right.z() == 0);  // the horizon is level
    CHECK(camera.up.z() >= 0);
    CHECK((camera.right.cross(camera.forward) - camera.up).norm() < 1e-12);
    const Vector2d place(400 * unit(random), 300 * unit(random));
    const Vector3d point = camera.eye_m + (0.1 + 5 * unit(random)) * camera.direction(place);
    const auto again = camera.place_px(point);
    REQUIRE(again);
    CHECK((*again - place).norm() < 1e-8);  // some hundred pixels times rounding over 0.1 m
  }
}

TEST_CASE("looking straight down or up, the picture keeps its plan direction", "[view][exact]") {
  const Camera down = camera_at({1, 1, 2}, {.toward_deg = 90, .tilt_deg = -90}, 60, k_size);
  CHECK((down.forward - Vector3d(0, 0, -1)).norm() == 0);
  CHECK((down.right - Vector3d(1, 0, 0)).norm() == 0);
  CHECK((down.up - Vector3d(0, 1, 0)).norm() == 0);  // north is at the top, as on the plan
  const Camera up = camera_at({1, 1, 2}, {.toward_deg = 90, .tilt_deg = 90}, 60, k_size);
  CHECK((up.up - Vector3d(0, -1, 0)).norm() == 0);
}

TEST_CASE("a view of the job becomes a camera", "[view][exact]") {
  const Job job = furnished_job();
  Viewpoint view{.name = "from the corner", .from = {{"west", 1}, {"south", 2}}, .height_m = 1.6};
  SECTION("that looks in a direction") {
    view.at = Looking{.toward_deg = 30, .tilt_deg = -10};
    const Camera camera = camera_of(job.room, view, k_size);
    CHECK((camera.eye_m - Vector3d(1, 2, 1.6)).norm() < 1e-12);
    CHECK(camera.forward.z() == Approx(std::sin(-10 * k_rad)).epsilon(1e-12));
    // Half of 75 degrees is at the side.
    const double half = std::acos(camera.direction({400, 150}).dot(camera.forward));
    CHECK(half == Approx(37.5 * k_rad).epsilon(1e-12));
  }
  SECTION("that looks at a point") {
    view.at = Spot{.from = {{"west", 3}, {"north", 1}}, .height_m = 0.5};
    const Camera camera = camera_of(job.room, view, k_size);
    const auto place = camera.place_px({3, 3, 0.5});
    REQUIRE(place);
    CHECK((*place - Vector2d(200, 150)).norm() < 1e-9);
  }
  SECTION("that looks at what is straight below") {
    view.at = Spot{.from = {{"west", 1}, {"south", 2}}, .height_m = 0};
    const Camera camera = camera_of(job.room, view, k_size);
    CHECK((camera.forward - Vector3d(0, 0, -1)).norm() < 1e-12);
    CHECK((camera.up - Vector3d(0, 1, 0)).norm() < 1e-12);
  }
}
