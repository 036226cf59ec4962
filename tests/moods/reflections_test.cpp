#include "evenlit/moods/reflections.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>
#include <utility>
#include <vector>

#include "lit_room.hpp"

using namespace evenlit;
using Eigen::Vector3d;

namespace {

constexpr double k_pi = std::numbers::pi;

/// A screen on the south wall, x 2.5...3.5, z 0.9...1.5, facing north.
ShinyRectangle screen() { return {"screen", {3, 0, 1.2}, {-0.5, 0, 0}, {0, 0, 0.3}}; }

const Vector3d k_eye(3, 2, 0.8);

std::vector<MirrorImage> images_in(const Scene& scene, const ShinyRectangle& rectangle, const Vector3d& eye_m) {
  return mirror_images(scene, Visibility(scene), rectangle, eye_m);
}

/// The share of a rectangular opening, aimed straight down, of which lines by way of the rectangle reach the eye.
double sampled_share(const ShinyRectangle& rectangle, const Luminaire& luminaire, const Vector3d& eye_m) {
  constexpr int k_along = 200;
  const Vector3d normal = rectangle.half_along_m.cross(rectangle.half_up_m).normalized();
  int seen = 0;
  for (int i = 0; i < k_along * k_along; ++i) {
    const Vector3d offset(((i % k_along + 0.5) / k_along - 0.5) * luminaire.opening.length_m,
                          ((i / k_along + 0.5) / k_along - 0.5) * luminaire.opening.width_m, 0);
    const Vector3d place = luminaire.position_m + luminaire.room_from_luminaire * offset;
    const double height_m = normal.dot(place - rectangle.centre_m);
    const double eye_height_m = normal.dot(eye_m - rectangle.centre_m);
    if (height_m < 0 || eye_height_m <= 0) continue;
    const Vector3d image = place - 2 * height_m * normal;
    const Vector3d met = eye_m + eye_height_m / (eye_height_m + height_m) * (image - eye_m) - rectangle.centre_m;
    if (std::abs(met.dot(rectangle.half_along_m)) <= rectangle.half_along_m.squaredNorm() &&
        std::abs(met.dot(rectangle.half_up_m)) <= rectangle.half_up_m.squaredNorm()) {
      ++seen;
    }
  }
  return static_cast<double>(seen) / (k_along * k_along);
}

}  // namespace

// Born and Wolf 1.5: ((n - 1) / (n + 1))^2 straight on; at Brewster's angle, tan = n, only what swings across is
// reflected: half of ((n^2 - 1) / (n^2 + 1))^2; all at grazing incidence.
TEST_CASE("glass reflects by Fresnel's equations", "[moods][formula]") {
  CHECK(fresnel_reflectance(1, 1.5) == Approx(0.04));
  CHECK(fresnel_reflectance(1 / std::sqrt(1 + 2.25), 1.5) == Approx(0.5 * std::pow(1.25 / 3.25, 2)));
  CHECK(fresnel_reflectance(0, 1.5) == Approx(1));
  CHECK(fresnel_reflectance(0.5, 1.5) == Approx(0.0891867).margin(6e-8));  // 60 degrees, worked by hand
}

// Heights above the mirror 3 and 2 m divide the way up from 0.8 m to 2.4 m.
TEST_CASE("a can over the room is mirrored in a screen", "[moods][exact]") {
  Scene scene = wide_room();
  const double area_m2 = k_pi * 0.1 * 0.1 / 4;
  add_luminaire(scene, {3, 3, 2.4}, disc(0.1), diffuse(200));
  scene.luminaires[0].level = 0.5;
  const auto images = images_in(scene, screen(), k_eye);
  REQUIRE(images.size() == 1);
  CHECK(images[0].luminaire == 0);
  CHECK((images[0].place_m - Vector3d(3, 0, 0.8 + 1.6 * 2 / 5)).norm() < 1e-12);
  CHECK(images[0].seen_share == 1);
  CHECK(images[0].reflectance == Approx(fresnel_reflectance(5 / std::hypot(5, 1.6), 1.5)));
  REQUIRE(images[0].opening_cd_m2);
  CHECK(*images[0].opening_cd_m2 == Approx(100 / area_m2).epsilon(2e-7));  // the table between its angles
  CHECK(*images[0].reflected_cd_m2 == Approx(images[0].reflectance * *images[0].opening_cd_m2));
}

TEST_CASE("a can misses the screen from elsewhere", "[moods][exact]") {
  Scene scene = wide_room();
  add_luminaire(scene, {3, 3, 2.4}, disc(0.1), diffuse(200));
  CHECK(images_in(scene, screen(), {3, 2, 1.2}).empty());    // seen above it
  CHECK(images_in(scene, screen(), {4.5, 2, 0.8}).empty());  // seen beside it
  ShinyRectangle backwards = screen();
  backwards.half_along_m = -backwards.half_along_m;
  CHECK(images_in(scene, backwards, k_eye).empty());
  ShinyRectangle nothing = screen();
  nothing.half_up_m.setZero();
  CHECK(images_in(scene, nothing, k_eye).empty());
  CHECK(images_in(scene, screen(), {3, 0, 1.2}).empty());  // an eye in its plane
  ShinyRectangle inner = screen();
  inner.centre_m.y() = 1;
  CHECK(images_in(scene, inner, {3, 2.5, 0.7}).size() == 1);
  scene.luminaires[0].position_m = {3, 0.5, 1};  // behind it, where the eye looks through
  CHECK(images_in(scene, inner, k_eye).empty());
}

TEST_CASE("an opening astride the edge is seen by half", "[moods][exact]") {
  const Opening opening = GENERATE(disc(0.15), rectangle_of(0.3, 0.2), rectangle_of(0.4, 0), Opening{});
  Scene scene = wide_room();
  add_luminaire(scene, {3.5, 3, 2.4}, opening, diffuse(200));
  const auto images = images_in(scene, screen(), {3.5, 2, 0.8});
  REQUIRE(images.size() == 1);
  CHECK(images[0].seen_share == Approx(0.5));
  CHECK(images[0].place_m.x() < 3.5);
  CHECK(images[0].place_m.z() == Approx(1.44).margin(0.01));
}

TEST_CASE("a point shows where it is and no luminance", "[moods][exact]") {
  Scene scene = wide_room();
  add_luminaire(scene, {3, 3, 2.4}, {}, diffuse(200));
  const auto images = images_in(scene, screen(), k_eye);
  REQUIRE(images.size() == 1);
  CHECK(images[0].seen_share == 1);
  CHECK_FALSE(images[0].opening_cd_m2);
  CHECK_FALSE(images[0].reflected_cd_m2);
}

TEST_CASE("boxes hide the image on either leg", "[moods][exact]") {
  const auto count = [](const Box& box) {
    Scene scene = wide_room({box});
    add_luminaire(scene, {3, 3, 2.4}, disc(0.1), diffuse(200));
    return images_in(scene, screen(), k_eye).size();
  };
  CHECK(count(upright_box({0, 3}, {1, 4}, 0, 1)) == 1);
  CHECK(count(upright_box({2.5, 1}, {3.5, 1.2}, 0.8, 1.3)) == 0);   // between the eye and the screen
  CHECK(count(upright_box({2.5, 2}, {3.5, 2.2}, 1.9, 2.3)) == 0);   // between the can and the screen
  CHECK(count(upright_box({2.5, 1}, {3.5, 1.2}, 0, 1)) == 1);       // below both
  CHECK(count(upright_box({2, 0.5}, {2.9, 1.5}, 0, 2.5)) == 1);     // beside both
  CHECK(count(upright_box({2.4, 0}, {3.6, 0.05}, 0.5, 1.6)) == 0);  // the screen is behind it
}

TEST_CASE("a screen on a box is not hidden by the box", "[moods][exact]") {
  Scene scene = wide_room({upright_box({2.4, 0.5}, {3.6, 1}, 0, 1.6)});
  add_luminaire(scene, {3, 4, 2.4}, disc(0.1), diffuse(200));
  ShinyRectangle on_box = screen();
  on_box.centre_m.y() = 1;
  CHECK(images_in(scene, on_box, {3, 3, 0.8}).size() == 1);
}

// A box that ends in the plane of eye and can, which is square to the screen.
TEST_CASE("a box hides half of an image", "[moods][exact]") {
  Scene scene = wide_room({upright_box({3, 1}, {4, 1.2}, 0, 2.5)});
  add_luminaire(scene, {3, 3, 2.4}, rectangle_of(0.2, 0.2), diffuse(200));
  const auto images = images_in(scene, screen(), k_eye);
  REQUIRE(images.size() == 1);
  CHECK(images[0].seen_share == Approx(0.5));
  CHECK(images[0].place_m.x() < 3);
}

// One in forty of its length lies on this side of the plane of eye and edge: less than the points of the opening part.
TEST_CASE("a sliver of an opening is seen past boxes too", "[moods][exact]") {
  Scene scene = wide_room({upright_box({0, 3}, {1, 4}, 0, 1)});
  add_luminaire(scene, {3.5 + 0.19, 3, 2.4}, rectangle_of(0.4, 0.2), diffuse(200));
  const auto images = images_in(scene, screen(), {3.5, 2, 0.8});
  REQUIRE(images.size() == 1);
  CHECK(images[0].seen_share == Approx(0.025));
}

// 200 x 200 lines: an edge across the opening is met to within half a line of each row.
TEST_CASE("what is seen of an opening is what lines reach", "[moods][property]") {
  std::mt19937_64 random(8);
  std::uniform_real_distribution<double> unit(-1, 1);
  int partly = 0;
  for (int i = 0; i < 200; ++i) {
    const Eigen::AngleAxisd tilt(0.3 * unit(random), Vector3d::UnitX());
    ShinyRectangle rectangle = screen();
    rectangle.centre_m = Vector3d(3, 0.8, 1.2);
    rectangle.half_along_m = tilt * rectangle.half_along_m;
    rectangle.half_up_m = tilt * rectangle.half_up_m;
    Scene scene = wide_room();
    add_luminaire(scene, {3 + 1.2 * unit(random), 3 + unit(random), 2.4}, rectangle_of(0.3, 0.2), diffuse(200));
    scene.luminaires[0].room_from_luminaire =
        room_from_luminaire(30 * std::abs(unit(random)), 180 * unit(random), 180 * unit(random));
    const Vector3d eye(3 + unit(random), 2.5 + unit(random), 1 + 0.4 * unit(random));
    const auto images = images_in(scene, rectangle, eye);
    const double expected = sampled_share(rectangle, scene.luminaires[0], eye);
    const double share = images.empty() ? 0 : images[0].seen_share;
    CHECK(share == Approx(expected).margin(0.005));
    if (share > 0 && share < 1) ++partly;
    if (images.empty()) continue;
    // The law of reflection, for the middle of what is seen: into the rectangle's own eye as far as out of it.
    const Vector3d normal = rectangle.half_along_m.cross(rectangle.half_up_m).normalized();
    CHECK(std::abs(normal.dot(images[0].place_m - rectangle.centre_m)) < 1e-12);
  }
  CHECK(partly > 20);
}

TEST_CASE("eye and point may change places, and light leaves as it came", "[moods][property]") {
  std::mt19937_64 random(9);
  std::uniform_real_distribution<double> unit(-1, 1);
  int seen = 0;
  for (int i = 0; i < 200; ++i) {
    const Vector3d a(3 + unit(random), 2 + unit(random), 1.2 + unit(random));
    const Vector3d b(3 + unit(random), 2 + unit(random), 1.2 + unit(random));
    const auto image = [](const Vector3d& eye_m, const Vector3d& point_m) {
      Scene scene = wide_room();
      add_luminaire(scene, point_m, {}, diffuse(200));
      return images_in(scene, screen(), eye_m);
    };
    const auto there = image(a, b);
    const auto back = image(b, a);
    if (there.empty() || back.empty()) continue;
    if (there[0].seen_share < 1 || back[0].seen_share < 1) continue;  // a millimetre astride the edge
    ++seen;
    CHECK((there[0].place_m - back[0].place_m).norm() < 1e-9);
    const Vector3d in = (there[0].place_m - b).normalized();
    const Vector3d out = (a - there[0].place_m).normalized();
    CHECK((in - 2 * in.y() * Vector3d::UnitY() - out).norm() < 1e-9);
  }
  CHECK(seen > 20);
}

TEST_CASE("an opening that touches the glass does no harm", "[moods][exact]") {
  Scene scene = wide_room();
  add_luminaire(scene, screen().centre_m, disc(0.1), diffuse(200));
  // Square to the glass, flat on it with its back to it and with its face to it.
  const auto aim = GENERATE(values<std::pair<double, double>>({{0, 0}, {90, 90}, {90, 270}}));
  scene.luminaires[0].room_from_luminaire = room_from_luminaire(aim.first, aim.second, 0);
  const auto images = images_in(scene, screen(), k_eye);
  REQUIRE(images.size() == 1);
  CHECK((images[0].place_m - screen().centre_m).norm() <= 0.05);
  CHECK(images[0].reflectance == Approx(0.04).margin(0.005));
  CHECK(std::isfinite(images[0].reflected_cd_m2.value_or(0)));
}
