#include "evenlit/view/veil.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "view/pictures.hpp"

using namespace evenlit;
using Eigen::Matrix3f;
using Eigen::Vector3d;
using Eigen::Vector3f;

namespace {

constexpr double k_degrees = 180 / std::numbers::pi;

/// Right, down and forward of someone who looks along +y and tilts the head a little, z up.
Matrix3f looking_along_y() {
  Matrix3f axes;
  axes << 1, 0, 0, 0, 0, 1, 0, -1, 0;
  return Eigen::AngleAxisf(0.2F, Vector3f(0.3F, 0.5F, 0.1F).normalized()) * axes;
}

/// The formula as CIE 146 prints it, in double precision.
double published_veil(double deg, double age, double pigment) {
  return 10 / std::pow(deg, 3) + (5 / std::pow(deg, 2) + 0.1 * pigment / deg) * (1 + std::pow(age / 62.5, 4)) +
         0.0025 * pigment;
}

Vector3d direction_of(const LuminancePicture& picture, const Matrix3f& axes, double tan_half_width, int x, int y) {
  const double pixel = 2 * tan_half_width / picture.width;
  const Vector3d seen((x + 0.5 - 0.5 * picture.width) * pixel, (y + 0.5 - 0.5 * picture.height) * pixel, 1);
  return axes.cast<double>() * seen.normalized();
}

double angle_deg(const Vector3d& a, const Vector3d& b) { return k_degrees * 2 * std::asin(0.5 * (a - b).norm()); }

/// An opening that a picture's axes see at x, y of the plane a unit away.
GlareSource source_at(const Matrix3f& axes, float x, float y, double lx, double radius_deg) {
  return {.direction = axes * Vector3f(x, y, 1).normalized(), .facing_lx = lx, .radius_deg = radius_deg};
}

bool is_finite(const LuminancePicture& picture) {
  return std::ranges::all_of(picture.rgb_cd_m2, [](const Eigen::ArrayXf& channel) { return channel.allFinite(); });
}

}  // namespace

// By hand: at 10 degrees and 62.5 years ageing doubles: 0.01 + (0.05 + 0.005) x 2 + 0.00125.
TEST_CASE("the veil at an angle", "[view][formula]") {
  CHECK(veil_cd_m2_per_lx(10, {62.5, 0.5}) == Approx(0.12125).epsilon(1e-12));
  CHECK(veil_cd_m2_per_lx(1, {62.5, 0}) == Approx(20).epsilon(1e-12));
  CHECK(veil_cd_m2_per_lx(0, {}) == veil_cd_m2_per_lx(0.1, {}));
  CHECK(veil_cd_m2_per_lx(180, {}) == veil_cd_m2_per_lx(100, {}));
}

TEST_CASE("a veil thins out with the angle, and older eyes see more of it", "[view][property]") {
  for (double deg = 0.1; deg < 99; deg *= 1.1) {
    CHECK(veil_cd_m2_per_lx(1.1 * deg, {}) < veil_cd_m2_per_lx(deg, {}));
    CHECK(veil_cd_m2_per_lx(deg, {70, 0.5}) > veil_cd_m2_per_lx(deg, {30, 0.5}));
  }
}

// The lattice promises 0.7 % of each opening's veil; a rounding of the picture's own light, 1 cd/m2, is added to that.
TEST_CASE("the veil over a picture is the formula's, pixel by pixel", "[view][formula]") {
  const Matrix3f axes = looking_along_y();
  const auto [width, height] = GENERATE(std::pair{320, 180}, std::pair{123, 77}, std::pair{5, 3}, std::pair{1, 1});
  const double tan_half_width = GENERATE(0.3, 0.9);
  const Eye eye{62.5, 1};
  const std::vector<GlareSource> sources{source_at(axes, 0.1F, -0.2F, 40, 2.5),
                                         source_at(axes, -0.7F, 0.3F, 7, 0),
                                         source_at(axes, 1.5F, -1.2F, 90, 4),
                                         {.direction = axes * Vector3f(0.1F, 0, -1).normalized(), .facing_lx = 500}};
  const LuminancePicture picture = veiled(sample::plain(width, height, 1), axes, tan_half_width, sources, eye);
  double worst = 0;
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      double sum = 0;
      for (const GlareSource& source : sources) {
        const Vector3d to = source.direction.cast<double>();
        const double lx = source.facing_lx * std::max(0.0, axes.col(2).cast<double>().dot(to));
        const double deg = angle_deg(direction_of(picture, axes, tan_half_width, x, y), to);
        sum += lx * published_veil(std::clamp(deg, std::max(0.1, source.radius_deg), 100.0), 62.5, 1);
      }
      const double differs = std::abs(picture.rgb_cd_m2[1][y * width + x] - 1 - sum);
      worst = std::max(worst, (differs - 1e-6) / sum);
    }
  }
  CHECK(worst < 0.007);
}

// Rounding of single precision, of a veil of some hundred cd/m2 at most.
TEST_CASE("the veil of an opening in the middle is the same on all sides and falls outwards", "[view][property]") {
  const Matrix3f axes = looking_along_y();
  constexpr int k_side = 101;
  const LuminancePicture picture =
      veiled(sample::plain(k_side, k_side, 0), axes, 0.5, std::vector{source_at(axes, 0, 0, 10, 1)});
  const Eigen::ArrayXf& veil = picture.rgb_cd_m2[0];
  const auto at = [&](int x, int y) { return veil[(50 + y) * k_side + 50 + x]; };
  for (int i = 0; i <= 50; ++i) {
    for (int j = 0; j <= i; ++j) {
      for (const float other : {at(-i, j), at(i, -j), at(-i, -j), at(j, i), at(-j, i)}) {
        CHECK(other == Approx(at(i, j)).epsilon(0.002));
      }
    }
    if (i > 0) CHECK(at(i, 0) <= at(i - 1, 0) * 1.00001F);
  }
  CHECK(at(0, 0) == Approx(10 * veil_cd_m2_per_lx(1, {})).epsilon(1e-5));
}

TEST_CASE("veils of openings add up, in their colours", "[view][property]") {
  const Matrix3f axes = looking_along_y();
  std::mt19937 random(7);
  std::vector<GlareSource> sources;
  LuminancePicture one_by_one = sample::plain(200, 120, 3);
  for (int i = 0; i < 12; ++i) {
    const auto share = [&] { return static_cast<float>(random()) / 4294967296.0F; };
    GlareSource source = source_at(axes, 2 * share() - 1, 2 * share() - 1, 30 * share(), 2 * share());
    source.tint = Vector3f(1.4F, 0.93F, 0.5F);
    one_by_one = veiled(std::move(one_by_one), axes, 0.8, std::vector{source});
    sources.push_back(source);
  }
  const LuminancePicture together = veiled(sample::plain(200, 120, 3), axes, 0.8, sources);
  for (int channel = 0; channel < 3; ++channel) {
    // Twelve roundings of single precision.
    const Eigen::ArrayXf share = together.rgb_cd_m2[channel] / one_by_one.rgb_cd_m2[channel];
    CHECK((share - 1).abs().maxCoeff() < 2e-6F);
  }
  const Eigen::ArrayXf red = together.rgb_cd_m2[0] - 3;
  const Eigen::ArrayXf blue = together.rgb_cd_m2[2] - 3;
  CHECK((red / blue - 1.4F / 0.5F).abs().maxCoeff() < 1e-3F);  // of veils of some tenths over 3 cd/m2
}

TEST_CASE("openings behind, beside and of any brightness leave all finite", "[view][property]") {
  const Matrix3f axes = looking_along_y();
  const LuminancePicture before = sample::plain(64, 36, 1e-12F);
  std::vector<GlareSource> sources;
  for (const Vector3f& to : {Vector3f(0, 0, 1), Vector3f(0, 0, -1), Vector3f(1, 0, 0), Vector3f(5, 1, 0.01F)}) {
    for (const double lx : {0.0, 1e-12, 1e9}) {
      for (const double radius_deg : {0.0, 90.0, 180.0}) {
        sources.push_back({.direction = axes * to.normalized(), .facing_lx = lx, .radius_deg = radius_deg});
      }
    }
  }
  for (const double tan_half_width : {1e-4, 1.0, 50.0}) {
    CHECK(is_finite(veiled(before, axes, tan_half_width, sources)));
  }
  const LuminancePicture behind = veiled(before, axes, 1, std::vector{source_at(-axes, 0, 0, 1e9, 1)});
  CHECK((behind.rgb_cd_m2[0] == before.rgb_cd_m2[0]).all());
  CHECK(veiled({}, axes, 1, sources).rgb_cd_m2[0].size() == 0);
}
