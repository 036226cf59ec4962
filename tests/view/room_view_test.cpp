#include "evenlit/view/room_view.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "evenlit/field/response.hpp"
#include "field/rooms.hpp"
#include "pictured.hpp"
#include "reference/path_tracer.hpp"
#include "reference/rooms_of_every_kind.hpp"

using namespace evenlit;
using namespace evenlit::testing;
using Eigen::Vector3d;

namespace {

constexpr double k_pi = std::numbers::pi;
constexpr PictureSize k_size{80, 60};

/// In the middle of a cube with faces `distance_m` away it lights all of them evenly: I = E d^2 / cos^3 of the angle
/// from the nearest face's normal. In steps of half a degree straight lines leave that by less than 0.05 %.
IntensityDistribution even_on_cube(double lux, double distance_m) {
  constexpr int k_per_deg = 2;
  IntensityDistribution distribution{
      .gamma_deg = {}, .c_deg = {}, .candela = {180 * k_per_deg + 1, 360 * k_per_deg + 1}};
  for (int i = 0; i < distribution.candela.rows(); ++i) {
    const double gamma = i * k_pi / (180 * k_per_deg);
    distribution.gamma_deg.push_back(static_cast<double>(i) / k_per_deg);
    for (int j = 0; j < distribution.candela.cols(); ++j) {
      const double c = j * k_pi / (180 * k_per_deg);
      if (i == 0) distribution.c_deg.push_back(static_cast<double>(j) / k_per_deg);
      const Vector3d direction(std::sin(gamma) * std::cos(c), std::sin(gamma) * std::sin(c), std::cos(gamma));
      const bool is_pole = i == 0 || i + 1 == distribution.candela.rows();
      const double cosine = is_pole ? 1 : direction.cwiseAbs().maxCoeff();
      distribution.candela(i, j) = lux * distance_m * distance_m / (cosine * cosine * cosine);
    }
  }
  return distribution;
}

/// 100 lx on all faces of a cube of 3 m, before any reflection.
Scene furnace(double reflectance) {
  Scene scene = box_room(3, 3, 3, {reflectance, reflectance, reflectance});
  add_point(scene, {1.5, 1.5, 1.5}, even_on_cube(100, 1.5));
  return scene;
}

/// From behind the lamp, which the picture would show.
Camera furnace_camera() { return camera_at({0.4, 1.1, 1.2}, {.toward_deg = 100, .tilt_deg = 10}, 100, k_size); }

}  // namespace

// Where all surfaces are alike and evenly lit, all of them have E / (1 - reflectance).
TEST_CASE("an evenly lit furnace looks the same all over", "[view][exact]") {
  const double reflectance = GENERATE(0.2, 0.5, 0.8);
  const Scene scene = furnace(reflectance);
  const Eigen::ArrayXf cd_m2 = luminance_of(room_view(scene, one_group(scene), furnace_camera()).groups[0]);
  const double expected = reflectance / k_pi * 100 / (1 - reflectance);
  CHECK(cd_m2.minCoeff() == Approx(expected).epsilon(0.01));
  CHECK(cd_m2.maxCoeff() == Approx(expected).epsilon(0.01));
}

TEST_CASE("a coloured furnace has the colour of all its reflections", "[view][exact]") {
  Scene scene = furnace(0.5);
  const Vector3d tint = tint_of({{220, 180, 140}});
  for (Surface& surface : scene.surfaces) surface.tint = tint;
  const LuminancePicture picture = room_view(scene, one_group(scene), furnace_camera()).groups[0];
  const Vector3d reflectance = 0.5 * tint;
  Vector3d colour = reflectance.array() / (1 - reflectance.array());
  colour /= k_luminance_of_rgb.dot(colour);
  const double cd_m2 = 0.5 / k_pi * 100 / 0.5;
  for (int i = 0; i < 3; ++i) {
    CAPTURE(i);
    CHECK(picture.rgb_cd_m2[i].minCoeff() == Approx(cd_m2 * colour[i]).epsilon(0.01));
    CHECK(picture.rgb_cd_m2[i].maxCoeff() == Approx(cd_m2 * colour[i]).epsilon(0.01));
  }
}

// I cos / d^2, in single precision: the beam's angles to 1e-5 degrees of it, tables straight to 1e-6.
TEST_CASE("a wall under one point follows the inverse-square law pixel by pixel", "[view][exact]") {
  Scene scene = box_room(4, 3, 2.5, {0, 0, 0});
  scene.surfaces[3].reflectance = 0.5;  // the wall in x = 4
  const Vector3d lamp(3.2, 1.3, 2.3);
  add_point(scene, lamp, cosine_power(1000, 2));
  const Camera camera = camera_at({0.5, 1.5, 1.2}, {.toward_deg = 0}, 40, k_size);
  const auto looks = one_group(scene);
  const Eigen::ArrayXf cd_m2 = luminance_of(room_view(scene, looks, camera).groups[0]);
  int compared = 0;
  for (const auto& [pixel, surface, position] : whole_pixels(scene, looks, camera)) {
    if (surface != 3) {
      CHECK(cd_m2[pixel] == 0);  // black, and what the wall throws on it does not show
      continue;
    }
    const Vector3d ray = position - lamp;
    const double down = std::max(0.0, -ray.z() / ray.norm());
    const double lx = 1000 * down * down * (ray.x() / ray.norm()) / ray.squaredNorm();
    CHECK(cd_m2[pixel] == Approx(0.5 / k_pi * lx).epsilon(1e-4).margin(1e-4));
    ++compared;
  }
  CHECK(compared > 1000);
}

TEST_CASE("pixels are as bright as the engine says of the points that they show, in rooms of every kind",
          "[view][property]") {
  std::mt19937_64 random(12);
  std::vector<double> off;
  for (const auto& room : reference::rooms_of_every_kind()) {
    CAPTURE(room.name);
    const Camera camera = camera_in(room.scene, k_size, random);
    const auto looks = one_group(room.scene);
    const auto pixels = whole_pixels(room.scene, looks, camera);
    std::vector<WholePixel> some;
    for (std::size_t i = 0; i < pixels.size(); i += 31) some.push_back(pixels[i]);
    std::vector<Receiver> receivers;
    for (const auto& [pixel, surface, position] : some) {
      receivers.push_back({position, room.scene.surfaces[surface].normal});
    }
    const Eigen::VectorXd lx = total_lx(response(room.scene, receivers));
    const Eigen::ArrayXf cd_m2 = luminance_of(room_view(room.scene, looks, camera).groups[0]);
    REQUIRE(cd_m2.allFinite());
    const double usual_lx = lx.mean();
    for (std::size_t i = 0; i < some.size(); ++i) {
      const double expected = room.scene.surfaces[some[i].surface].reflectance / k_pi * lx[static_cast<int>(i)];
      const double least = room.scene.surfaces[some[i].surface].reflectance / k_pi * 0.05 * usual_lx;
      if (expected > 0) off.push_back(std::abs(cd_m2[some[i].pixel] - expected) / std::max(expected, least));
      if (!off.empty() && off.back() > 0.05)
        UNSCOPED_INFO(room.name << " " << room.scene.surfaces[some[i].surface].name << " "
                                << some[i].position_m.transpose() << " has " << cd_m2[some[i].pixel] << " not "
                                << expected);
    }
  }
  std::ranges::sort(off);
  const auto at = [&](double share) {
    return off[static_cast<std::size_t>(share * (static_cast<double>(off.size()) - 1))];
  };
  CAPTURE(off.size(), at(0.5), at(0.9), at(0.95), at(0.98), at(0.99), at(0.995), off.back());
  CHECK(at(0.95) < 0.01);
  CHECK(off.back() < 0.01);
}
