#include "surface_light.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "evenlit/room/first_hit.hpp"
#include "pictured.hpp"
#include "reference/rooms_of_every_kind.hpp"
#include "room/furnished_room.hpp"

using namespace evenlit;
using Eigen::Vector3d;

namespace {

/// Changes as indirect light does in a room, by some tens of percent a metre.
double smooth(const Vector3d& point) {
  return 100 + 30 * std::sin(2 * point.x()) + 25 * std::cos(1.5 * point.y() + point.z());
}

Job crowded_job(int side) {
  Job job = empty_job({{0, 0}, {6, 0}, {6, 6}, {0, 6}}, {"south", "east", "north", "west"});
  for (int i = 0; i < side * side; ++i) {
    Obstruction box;
    box.name = "box " + std::to_string(i);
    box.from[0] = {"west", 0.1 + 5.8 / side * (i % side)};
    box.from[1] = {"south", 0.1 + 5.8 / side * (i / side)};
    box.width_m = box.depth_m = 0.2;
    box.turn_deg = 10 * i;
    box.top_m = 0.5;
    job.obstructions.push_back(box);
  }
  return job;
}

}  // namespace

TEST_CASE("steps grow from both ends and lead back", "[view][property]") {
  for (const double length_m : {0.01, 0.1, 0.4, 1.0, 2.44, 4.0, 12.0}) {
    const Steps steps(length_m, 0.25);
    CAPTURE(length_m, steps.count());
    CHECK(steps.share_at(0) == Approx(0).margin(1e-12));
    CHECK(steps.share_at(steps.count()) == Approx(1).epsilon(1e-12));
    for (int i = 0; i < steps.count(); ++i) {
      const double step_m = length_m * (steps.share_at(i + 1) - steps.share_at(i));
      CHECK(step_m > 0);
      CHECK(step_m < 0.25 + 1e-9);
      CHECK(steps.step_at(steps.share_at(i + 0.3)) == Approx(i + 0.3).epsilon(1e-9));
    }
  }
}

TEST_CASE("points of a lattice are on what is free of their surface", "[view][property]") {
  for (const auto& room : reference::rooms_of_every_kind()) {
    CAPTURE(room.name);
    const Lattice lattice = lattice_on(room.scene);
    REQUIRE(lattice.surfaces.size() == room.scene.surfaces.size());
    Eigen::Index next = 0;
    for (std::size_t i = 0; i < lattice.surfaces.size(); ++i) {
      for (const LatticePiece& piece : lattice.surfaces[i].pieces) {
        CHECK(piece.first == next);
        next += piece.columns() * piece.rows();
        for (Eigen::Index k = piece.first; k < next; ++k) {
          REQUIRE(is_on_free_part(room.scene.surfaces[i], lattice.points[k].position_m));
        }
      }
    }
    CHECK(next == std::ssize(lattice.points));
  }
}

// Cubic convolution leaves a function by some h^3 of its third derivative: here 30 x 8 x 0.25^3 / 30, 0.1 of 100; as
// much again where steps grow, and 5 mm of 60 a metre on the sides, 0.3.
TEST_CASE("smooth light is met between the points, in rooms of every kind", "[view][property]") {
  std::mt19937_64 random(4);
  for (const auto& room : reference::rooms_of_every_kind()) {
    CAPTURE(room.name);
    Lattice lattice = lattice_on(room.scene);
    Eigen::MatrixXd known(std::ssize(lattice.points), 2);
    for (Eigen::Index i = 0; i < known.rows(); ++i) {
      const double value = smooth(lattice.points[i].position_m);
      known.row(i) << value, 2 * value;
    }
    const SurfaceLight light(std::move(lattice), known);
    for (const auto& [pixel, surface, position] :
         whole_pixels(room.scene, looks_of(room.scene), camera_in(room.scene, {40, 30}, random))) {
      Facets facets;
      facets.add(position, room.scene.surfaces[surface].normal);
      LightTable lx;
      light.look_up(surface, facets, lx);
      CHECK(lx(0, 0) == Approx(smooth(position)).margin(0.6).epsilon(0));
      CHECK(lx(0, 1) == Approx(2 * lx(0, 0)).epsilon(1e-5));
    }
  }
}

TEST_CASE("a crowded room has no more points than can be lit", "[view]") {
  const Lattice lattice = lattice_on(build_scene(crowded_job(12), {}));
  CHECK(lattice.points.size() > 4000);
  CHECK(lattice.points.size() <= 10'000);
}
