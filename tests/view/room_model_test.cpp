#include "evenlit/view/room_model.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "field/rooms.hpp"
#include "pictured.hpp"
#include "reference/rooms_of_every_kind.hpp"

using namespace evenlit;
using Eigen::Vector3d;

namespace {

using Triangle = std::array<Vector3d, 3>;

std::vector<Triangle> triangles_of(const ModelFace& face) {
  std::vector<Triangle> triangles;
  for (const auto& [a, b, c] : face.triangles) {
    triangles.push_back({face.corners_m.at(a), face.corners_m.at(b), face.corners_m.at(c)});
  }
  return triangles;
}

Vector3d area_of(const Triangle& triangle) {
  return 0.5 * (triangle[1] - triangle[0]).cross(triangle[2] - triangle[0]);
}

/// Of what is free of a surface; holes run the other way round.
double free_area_m2(const Surface& surface) {
  double area = 0;
  for (const Outline& outline : surface.free_m) area += surface.normal.dot(vector_area(outline));
  return area;
}

RoomModel dark_model(const Scene& scene) {
  Scene dark = scene;
  dark.luminaires.clear();
  return room_model(LitRoom(dark, {}));
}

}  // namespace

// Corners that another face has near a side, within a micrometre, are taken as they are; strips narrower than a
// hundredth of a millimetre, which rounding left, are none. The longest sides have 12 m.
TEST_CASE("triangles cover what is free of the surfaces, and face the room", "[view][exact]") {
  for (const auto& room : reference::rooms_of_every_kind()) {
    CAPTURE(room.name);
    std::vector<double> covered_m2(room.scene.surfaces.size());
    for (const ModelFace& face : dark_model(room.scene).faces) {
      REQUIRE(face.kind == ShownFace::Kind::surface);
      for (const Triangle& triangle : triangles_of(face)) {
        const Vector3d area = area_of(triangle);
        REQUIRE(area.dot(face.normal) >= 0);
        CHECK((area - area.dot(face.normal) * face.normal).norm() < 12e-6);
        covered_m2[face.surface] += area.norm();
      }
    }
    for (std::size_t i = 0; i < covered_m2.size(); ++i) {
      CAPTURE(room.scene.surfaces[i].name);
      CHECK(covered_m2[i] == Approx(free_area_m2(room.scene.surfaces[i])).epsilon(1e-9).margin(12e-5));
    }
  }
}

// Where a corner lies on another triangle's side a screen shows a gap of single pixels.
TEST_CASE("no corner of a triangle lies within the side of another", "[view][property]") {
  constexpr double k_touching_m = 5e-7;
  for (const auto& room : reference::rooms_of_every_kind()) {
    CAPTURE(room.name);
    const RoomModel model = dark_model(room.scene);
    std::vector<Vector3d> corners;
    for (const ModelFace& face : model.faces) {
      corners.insert(corners.end(), face.corners_m.begin(), face.corners_m.end());
    }
    int within = 0;
    for (const ModelFace& face : model.faces) {
      for (const Triangle& triangle : triangles_of(face)) {
        const Vector3d side = triangle[2] - triangle[1];  // the others end in the middle of a piece
        const Vector3d along = side.normalized();
        for (const Vector3d& corner : corners) {
          const double at_m = along.dot(corner - triangle[1]);
          if (at_m < 1e-5 || at_m > side.norm() - 1e-5) continue;
          within += (corner - triangle[1] - at_m * along).norm() < k_touching_m ? 1 : 0;
        }
      }
    }
    CHECK(within == 0);
  }
}

TEST_CASE("an opening is as bright from every side as its beam says, and lies on its trim", "[view][exact]") {
  Scene scene = testing::box_room(4, 4, 2.5, {0.2, 0.7, 0.5});
  testing::add_point(scene, {2, 2, 2.5}, testing::cosine_power(300, 2));
  scene.luminaires[0].opening = {.shape = Opening::Shape::disc, .width_m = 0.2, .length_m = 0.2};
  const RoomModel model = room_model(LitRoom(scene, one_group(scene)));
  REQUIRE(model.openings.size() == 1);
  const ModelOpening& opening = model.openings[0];
  REQUIRE(opening.cd_m2.size() == 91);
  // I cos^2 over A cos, down to a twentieth of the area; to the table's 1e-6.
  for (std::size_t i = 0; i < opening.cd_m2.size(); ++i) {
    const double cosine = std::max(0.0, std::cos(static_cast<double>(i) * 2 * std::numbers::pi / 180));
    const double area_m2 = std::numbers::pi * 0.01 * cosine;
    const double expected = 300 * cosine * cosine / std::max(area_m2, 0.05 * 0.04);
    CHECK(opening.cd_m2[i] == Approx(expected).epsilon(1e-4).margin(1e-3));
  }
  const ModelFace& disc = model.faces.at(opening.face);
  const ModelFace& trim = model.faces.at(opening.face - 1);
  CHECK(disc.kind == ShownFace::Kind::opening);
  CHECK(trim.kind == ShownFace::Kind::trim);
  for (const auto& [face, height_m] : {std::pair(disc, 2.498), std::pair(trim, 2.499)}) {
    CHECK(face.surface == 1);
    for (const Vector3d& corner : face.corners_m) CHECK(corner.z() == Approx(height_m).epsilon(1e-12));
    for (const Triangle& triangle : triangles_of(face)) CHECK(area_of(triangle).z() < 0);
  }
}

TEST_CASE("an opening that hangs free faces its aim and takes no light", "[view]") {
  Scene scene = testing::box_room(4, 4, 2.5);
  testing::add_point(scene, {2, 2, 1.8}, testing::cosine_power(300, 1));
  const RoomModel model = room_model(LitRoom(scene, one_group(scene)));
  const ModelFace& disc = model.faces.at(model.openings.at(0).face);
  CHECK(disc.surface == -1);
  CHECK(disc.reflectance == 0);
  for (const Triangle& triangle : triangles_of(disc)) CHECK(area_of(triangle).z() < 0);
}
