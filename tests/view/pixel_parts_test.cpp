#include "evenlit/view/pixel_parts.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>
#include <map>
#include <random>

#include "evenlit/room/first_hit.hpp"
#include "field/rooms.hpp"
#include "pictured.hpp"
#include "reference/rooms_of_every_kind.hpp"
#include "room/furnished_room.hpp"

using namespace evenlit;
using Eigen::Vector2d;
using Eigen::Vector3d;

namespace {

constexpr PictureSize k_size{96, 64};

std::vector<ShownFace> surfaces_of(const Scene& scene) {
  Scene dark = scene;
  dark.luminaires.clear();
  return shown_faces(dark, {}, {});
}

double distance_to_free_part(const Surface& surface, const Vector3d& point) {
  const FaceFrame frame = frame_of(surface.corners_m, surface.normal);
  double least_m = std::abs(surface.normal.dot(point - frame.origin));
  bool is_within = false;
  double outline_m = 1e9;
  for (const Outline& outline : surface.free_m) {
    Polygon flat;
    for (const Vector3d& corner : outline) flat.push_back(frame.flat(corner));
    outline_m = std::min(outline_m, distance_to_outline(flat, frame.flat(point)));
    if (is_inside(flat, frame.flat(point))) is_within = !is_within;
  }
  return is_within ? least_m : std::max(least_m, outline_m);
}

}  // namespace

TEST_CASE("every pixel is shown once and whole, in rooms of every kind", "[view][property]") {
  std::mt19937_64 random(5);
  for (const auto& room : reference::rooms_of_every_kind()) {
    CAPTURE(room.name);
    const auto faces = surfaces_of(room.scene);
    for (int view = 0; view < 6; ++view) {
      const auto rows = pixel_parts(faces, camera_in(room.scene, k_size, random));
      REQUIRE(rows.size() == static_cast<std::size_t>(k_size.height));
      for (const auto& row : rows) {
        std::vector<float> shown(static_cast<std::size_t>(k_size.width));
        int last = -1;
        for (const PixelPart& part : row) {
          CHECK(part.weight > 0);
          CHECK(part.column >= last);
          last = part.column;
          shown[part.column] += part.weight;
        }
        for (const float weight : shown) REQUIRE(weight == Approx(1).epsilon(1e-5));  // single precision
      }
    }
  }
}

TEST_CASE("parts of pixels lie on what is free of their surfaces", "[view][property]") {
  std::mt19937_64 random(6);
  for (const auto& room : reference::rooms_of_every_kind()) {
    CAPTURE(room.name);
    const Camera camera = camera_in(room.scene, k_size, random);
    for (const auto& row : pixel_parts(surfaces_of(room.scene), camera)) {
      for (const PixelPart& part : row) {
        const Vector3d point = part.position_m.cast<double>();
        const double distance_m = (point - camera.eye_m).norm();
        CAPTURE(part.weight, distance_m);
        // Outlines meet within 2e-5 m, and a gap between two faces is closed with the one on its left.
        CHECK(distance_to_free_part(room.scene.surfaces[part.face], point) < 1e-4);
      }
    }
  }
}

TEST_CASE("what fills a pixel is what a ray through its middle meets first", "[view][property]") {
  std::mt19937_64 random(7);
  for (const auto& room : reference::rooms_of_every_kind()) {
    CAPTURE(room.name);
    for (int view = 0; view < 3; ++view) {
      const Camera camera = camera_in(room.scene, k_size, random);
      const auto rows = pixel_parts(surfaces_of(room.scene), camera);
      for (std::size_t row = 0; row < rows.size(); row += 5) {
        for (const PixelPart& part : rows[row]) {
          if (part.weight < 1) continue;
          const Vector2d middle(part.column + 0.5, static_cast<double>(row) + 0.5);
          const auto hit = first_hit(room.scene, camera.eye_m, camera.direction(middle));
          REQUIRE(hit);
          CHECK(hit->surface == part.face);
          // Single precision of places of some metres.
          CHECK((hit->position_m - part.position_m.cast<double>()).norm() < 1e-5);
        }
      }
    }
  }
}

// By 64 x 64 rays a pixel.
TEST_CASE("shares of pixels are those that many rays find", "[view][reference]") {
  const Scene scene = furnished_room();
  const Camera camera = camera_at({0.7, 3.1, 1.9}, {.toward_deg = -50, .tilt_deg = -25}, 70, {24, 16});
  const auto rows = pixel_parts(surfaces_of(scene), camera);
  constexpr int k_rays = 64;
  for (int row = 0; row < 16; ++row) {
    for (int column = 0; column < 24; ++column) {
      std::map<int, double> shown;
      for (const PixelPart& part : rows[row]) {
        if (part.column == column) shown[part.face] += part.weight;
      }
      if (shown.size() < 2) continue;
      std::map<int, double> counted;
      for (int i = 0; i < k_rays * k_rays; ++i) {
        const Vector2d place(column + (i % k_rays + 0.5) / k_rays, row + (i / k_rays + 0.5) / k_rays);
        counted[first_hit(scene, camera.eye_m, camera.direction(place))->surface] += 1.0 / (k_rays * k_rays);
      }
      for (const auto& [face, share] : counted) {
        CAPTURE(row, column, face);
        // A level edge falls between two of eight lines: at most half of their distance; rays stand for 1/64.
        CHECK(shown[face] == Approx(share).margin(1.0 / 16 + 1.0 / 64).epsilon(0));
      }
    }
  }
}

TEST_CASE("a picture from within a hand of a wall has no holes", "[view][property]") {
  const Scene scene = testing::box_room(4, 3, 2.5);
  for (const double from_wall_m : {1e-3, 1e-6, 0.0}) {
    for (const double toward_deg : {0, 89, 90, 180, 270}) {
      const Camera camera = camera_at({from_wall_m, 1.5, 1.2}, {.toward_deg = toward_deg}, 90, k_size);
      for (const auto& row : pixel_parts(surfaces_of(scene), camera)) {
        double whole = 0;
        for (const PixelPart& part : row) {
          whole += part.weight;
          CHECK(part.position_m.allFinite());
        }
        CHECK(whole == Approx(k_size.width).epsilon(1e-5));
      }
    }
  }
}

TEST_CASE("an opening covers what is behind it, and a box covers an opening", "[view][exact]") {
  Scene scene = testing::box_room(4, 4, 2.5);
  testing::add_point(scene, {2, 2, 2.5}, testing::cosine_power(100, 1));
  scene.luminaires[0].opening = {.shape = Opening::Shape::disc, .width_m = 0.2, .length_m = 0.2};
  const std::vector<LuminaireLook> looks{{.group = 0, .hole_m = 0.2}};
  const Vector3d eye(2, 2, 0.5);
  const auto areas = [&](const Scene& room) {
    const Camera camera = camera_at(eye, {.toward_deg = 90, .tilt_deg = 90}, 20, {400, 400});
    const auto faces = shown_faces(room, looks, eye);
    std::map<ShownFace::Kind, double> area;
    for (const auto& row : pixel_parts(faces, camera)) {
      for (const PixelPart& part : row) area[faces[part.face].kind] += part.weight;
    }
    const double m_per_px = 2 / camera.focal_px;
    for (auto& [kind, px] : area) px *= m_per_px * m_per_px;
    return area;
  };
  const auto open = areas(scene);
  // 64 corners lie inside of a circle by 0.16 % of its area; lines add less than that.
  const double disc_m2 = 3.14159265 / 4 * 0.2 * 0.2;
  const double trim_m2 = 3.14159265 / 4 * 0.2254 * 0.2254 - disc_m2;
  CHECK(open.at(ShownFace::Kind::opening) == Approx(disc_m2).epsilon(3e-3));
  CHECK(open.at(ShownFace::Kind::trim) == Approx(trim_m2).epsilon(1e-2));
  place_boxes(scene, {{.name = "board", .centre_m = {2.5, 2}, .half_m = {0.5, 0.5}, .bottom_m = 2, .top_m = 2.1}});
  CHECK(areas(scene).at(ShownFace::Kind::opening) == Approx(disc_m2 / 2).epsilon(6e-3));
}
