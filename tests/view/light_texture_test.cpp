#include "evenlit/view/light_texture.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "evenlit/field/response.hpp"
#include "evenlit/room/first_hit.hpp"
#include "evenlit/view/light_groups.hpp"
#include "furnace.hpp"
#include "moods/controlled_job.hpp"
#include "pictured.hpp"
#include "reference/rooms_of_every_kind.hpp"
#include "room/furnished_room.hpp"

using namespace evenlit;
using Eigen::Index;
using Eigen::Vector2d;
using Eigen::Vector3d;

namespace {

constexpr double k_pi = std::numbers::pi;

Eigen::ArrayXf illuminances(const LightTexture& texture, std::size_t group) {
  const Eigen::Vector3f of = k_luminance_of_rgb.cast<float>();
  const auto& [red, green, blue] = texture.groups_lx[group];
  return of[0] * red + of[1] * green + of[2] * blue;
}

struct Texel {
  int surface;
  Index index;
  Vector3d middle_m;
};

/// Texels of the image, each as likely, whose middle is free.
std::vector<Texel> free_texels(const Scene& scene, const LightTexture& texture, int count, std::mt19937_64& random) {
  std::vector<Texel> texels;
  while (std::ssize(texels) < count) {
    const auto column = static_cast<int>(random() % texture.width);
    const auto row = static_cast<int>(random() % texture.height);
    const auto rectangle = std::ranges::find_if(texture.rectangles, [&](const TextureRectangle& one) {
      return column >= one.column && column < one.column + one.columns && row >= one.row && row < one.row + one.rows;
    });
    if (rectangle == texture.rectangles.end()) continue;
    const Vector2d share((column - rectangle->column + 0.5) / rectangle->columns,
                         (row - rectangle->row + 0.5) / rectangle->rows);
    const Vector3d middle = rectangle->frame.lifted(rectangle->low_m + share.cwiseProduct(rectangle->size_m));
    const auto surface = static_cast<int>(rectangle - texture.rectangles.begin());
    if (!is_on_free_part(scene.surfaces[surface], middle)) continue;
    texels.push_back({surface, static_cast<Index>(row) * texture.width + column, middle});
  }
  return texels;
}

/// As a screen's hardware reads a texture: between the middles of four texels.
Vector3d filtered(const LightTexture& texture, const std::array<Eigen::ArrayXf, 3>& planes, const Vector2d& place) {
  const Vector2d from = place - Vector2d(0.5, 0.5);
  const auto column = static_cast<Index>(std::floor(from.x()));
  const auto row = static_cast<Index>(std::floor(from.y()));
  const double x = from.x() - static_cast<double>(column);
  const double y = from.y() - static_cast<double>(row);
  const Index at = row * texture.width + column;
  Vector3d rgb;
  for (int colour = 0; colour < 3; ++colour) {
    const auto& plane = planes[colour];
    rgb[colour] = (1 - y) * ((1 - x) * plane[at] + x * plane[at + 1]) +
                  y * ((1 - x) * plane[at + texture.width] + x * plane[at + texture.width + 1]);
  }
  return rgb;
}

double quantile(std::vector<double> values, double share) {
  std::ranges::sort(values);
  return values[static_cast<std::size_t>(share * (static_cast<double>(values.size()) - 1))];
}

}  // namespace

// Where all surfaces are alike and evenly lit, all of them have E / (1 - reflectance); pictures promise 1 %.
TEST_CASE("a furnace has the same light in every texel and in the borders", "[view][exact]") {
  const double reflectance = GENERATE(0.2, 0.8);
  const Scene scene = furnace(reflectance);
  const LightTexture texture = light_texture(LitRoom(scene, one_group(scene)));
  const Eigen::ArrayXf lx = illuminances(texture, 0);
  const Eigen::Map<const Eigen::Array<float, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>> image(
      lx.data(), texture.height, texture.width);
  REQUIRE(texture.rectangles.size() == 6);
  for (const TextureRectangle& rectangle : texture.rectangles) {
    CHECK(rectangle.columns == 150);
    CHECK(rectangle.rows == 150);
    const auto block = image.block(rectangle.row - 1, rectangle.column - 1, rectangle.rows + 2, rectangle.columns + 2);
    CHECK(block.minCoeff() == Approx(100 / (1 - reflectance)).epsilon(0.01));
    CHECK(block.maxCoeff() == Approx(100 / (1 - reflectance)).epsilon(0.01));
  }
}

TEST_CASE("a coloured furnace has the colour of its reflected light in every texel", "[view][exact]") {
  Scene scene = furnace(0.5);
  const Vector3d tint = tint_of({{220, 180, 140}});
  for (Surface& surface : scene.surfaces) surface.tint = tint;
  const LightTexture texture = light_texture(LitRoom(scene, one_group(scene)));
  Vector3d light = (1 - 0.5 * tint.array()).inverse();
  light *= 200 / k_luminance_of_rgb.dot(light);
  std::mt19937_64 random(5);
  for (const Texel& texel : free_texels(scene, texture, 200, random)) {
    for (int colour = 0; colour < 3; ++colour) {
      CHECK(texture.groups_lx[0][colour][texel.index] == Approx(light[colour]).epsilon(0.01));
    }
  }
}

// As pixels of pictures, which have the same light: 1 % of the division of openings and of the mesh, and the engine's
// own 0.5 %; what is left beyond 2 % is the edge of a shadow in reflected light. What gets less than a twentieth of the
// usual counts by that.
TEST_CASE("texels have the light that the engine says, in rooms of every kind", "[view][property]") {
  constexpr int k_texels = 60;
  std::mt19937_64 random(21);
  std::vector<double> off;
  for (const auto& room : reference::rooms_of_every_kind()) {
    CAPTURE(room.name);
    const LightTexture texture = light_texture(LitRoom(room.scene, one_group(room.scene)));
    const Eigen::ArrayXf lx = illuminances(texture, 0);
    for (const auto& plane : texture.groups_lx[0]) {
      REQUIRE(plane.allFinite());
      REQUIRE(plane.minCoeff() >= 0);
    }
    const std::vector<Texel> texels = free_texels(room.scene, texture, k_texels, random);
    std::vector<Receiver> receivers;
    for (const Texel& texel : texels) {
      receivers.push_back({texel.middle_m, room.scene.surfaces[texel.surface].normal});
    }
    const Eigen::VectorXd stated = evenlit::testing::total_lx(response(room.scene, receivers));
    const double least = 0.05 * stated.mean();
    for (int i = 0; i < stated.size(); ++i) {
      if (stated.mean() > 0) off.push_back(std::abs(lx[texels[i].index] - stated[i]) / std::max(stated[i], least));
    }
  }
  CHECK(off.size() > 500);
  CHECK(quantile(off, 0.5) < 0.002);
  CHECK(quantile(off, 0.95) < 0.01);
  CHECK(quantile(off, 0.99) < 0.02);
  CHECK(quantile(off, 1) < 0.3);
}

TEST_CASE("rectangles and their borders lie apart in the texture, and texels are small", "[view][property]") {
  for (const auto& room : reference::rooms_of_every_kind()) {
    CAPTURE(room.name);
    Scene dark = room.scene;
    dark.luminaires.clear();
    const LightTexture texture = light_texture(LitRoom(dark, {}));
    REQUIRE(texture.width <= k_most_texels);
    REQUIRE(texture.height <= k_most_texels);
    std::vector<char> taken(static_cast<std::size_t>(texture.width) * texture.height);
    for (std::size_t i = 0; i < texture.rectangles.size(); ++i) {
      const TextureRectangle& rectangle = texture.rectangles[i];
      REQUIRE((rectangle.columns == 0) == room.scene.surfaces[i].free_m.empty());
      if (rectangle.columns == 0) continue;
      CHECK(rectangle.size_m.x() / rectangle.columns <= texture.texel_m + 1e-9);
      CHECK(rectangle.size_m.y() / rectangle.rows <= texture.texel_m + 1e-9);
      for (int row = rectangle.row - 1; row <= rectangle.row + rectangle.rows; ++row) {
        for (int column = rectangle.column - 1; column <= rectangle.column + rectangle.columns; ++column) {
          char& texel = taken.at(static_cast<std::size_t>(row) * texture.width + column);
          REQUIRE(texel == 0);
          texel = 1;
        }
      }
    }
  }
}

TEST_CASE("a hall too large for texels of 2 cm has larger ones", "[view]") {
  Scene scene = evenlit::testing::box_room(30, 20, 4);
  evenlit::testing::add_point(scene, {15, 10, 4}, evenlit::testing::cosine_power(5000, 1));
  const LightTexture texture = light_texture(LitRoom(scene, one_group(scene)));
  CHECK(texture.texel_m > 0.03);
  CHECK(texture.texel_m < 0.06);
  CHECK(texture.width * texture.height > 700'000);  // and not much larger than they have to be
}

TEST_CASE("a room without luminaires has a texture without groups", "[view]") {
  const LightTexture texture = light_texture(LitRoom(evenlit::testing::box_room(4, 3, 2.5), {}));
  CHECK(texture.groups_lx.empty());
  CHECK(texture.rectangles.size() == 6);
}

// The same light, so what is left is the straight line between texels 2 cm apart: a thousandth where light changes by
// half within 20 cm, more at the edges of shadows, which a tenth of the pixels may be near to.
TEST_CASE("a mixed texture shows what a picture of the room shows", "[view][property]") {
  Job job = controlled_job();
  job.obstructions = furnished_job().obstructions;
  Scene scene = scene_of(job);
  scene.surfaces[0].tint = tint_of({{165, 113, 60}});
  const std::vector<double> can_levels = [&] {
    std::vector<double> levels;
    for (std::size_t i = 0; i < job.cans.size(); ++i) levels.push_back(0.3 + 0.1 * static_cast<double>(i % 5));
    return levels;
  }();
  const std::vector<double> levels = group_levels(job, can_levels);
  const std::vector<Vector3d> tints(levels.size(), {1.4, 0.95, 0.45});
  const LitRoom room(scene, luminaire_looks(job));
  const LightTexture texture = light_texture(room);
  const Camera camera = camera_of(job.room, default_viewpoint(job).value(), {160, 90});
  const LuminancePicture picture = mixed(room_view(room, camera), levels, tints);
  std::vector<double> off;
  for (const WholePixel& pixel : whole_pixels(scene, room.looks(), camera)) {
    const Surface& surface = scene.surfaces[pixel.surface];
    const Vector2d place = texture.rectangles[pixel.surface].place_of(pixel.position_m);
    Vector3d mix = Vector3d::Zero();
    for (std::size_t group = 0; group < levels.size(); ++group) {
      const Vector3d lx = filtered(texture, texture.groups_lx[group], place);
      const Vector3d colour = lx.cwiseProduct(surface.tint).cwiseProduct(tints[group]);
      const double cd_m2 = levels[group] * k_luminance_of_rgb.dot(lx) * surface.reflectance / k_pi;
      mix += cd_m2 / std::max(k_luminance_of_rgb.dot(colour), 1e-9) * colour;
    }
    for (int colour = 0; colour < 3; ++colour) {
      const double seen = picture.rgb_cd_m2[colour][pixel.pixel];
      if (seen > 0) off.push_back(std::abs(mix[colour] - seen) / seen);
    }
  }
  CHECK(off.size() > 10'000);
  CHECK(quantile(off, 0.5) < 0.002);
  CHECK(quantile(off, 0.9) < 0.02);
}
