#include "resampling.hpp"

#include <catch2/catch.hpp>

#include "rooms.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

struct Room {
  Mesh mesh = make_mesh(room_over({{0, 0}, {5.4, 0}, {5.4, 2.8}, {3, 2.8}, {3, 4.8}, {0, 4.8}}, 2.4), 0.9);
  Nodes many = gauss_nodes(mesh.patches, 3);
  Nodes few = gauss_nodes(mesh.patches, 2);
  Resampling resampling{many, few};
};

/// A plane function of the place.
PatchLight plane_at(const Nodes& nodes) {
  PatchLight values(nodes.size(), 1);
  for (int i = 0; i < nodes.size(); ++i) values(i, 0) = 3 + 2 * nodes.x_m[i] - nodes.y_m[i] + 0.5F * nodes.z_m[i];
  return values;
}

double dot(const PatchLight& a, const PatchLight& b) { return a.col(0).cast<double>().dot(b.col(0).cast<double>()); }

}  // namespace

// Linear interpolation is exact for what is linear. Tolerance of all checks here: single precision.
TEST_CASE("what changes evenly across a patch is the same at many nodes and at few", "[field][exact]") {
  const Room room;
  const PatchLight refined = room.resampling.refined(plane_at(room.few));
  CHECK((refined - plane_at(room.many)).cwiseAbs().maxCoeff() < 2e-5F);
}

TEST_CASE("light carried to fewer nodes keeps its lumens, and its sums with weights that change evenly",
          "[field][property]") {
  const Room room;
  const PatchLight light = PatchLight::Random(room.many.size(), 1);
  const PatchLight condensed = room.resampling.condensed(light);
  const auto sum = [](const Nodes& nodes, const PatchLight& weights, const PatchLight& values) {
    double total = 0;
    for (int i = 0; i < nodes.size(); ++i) total += double{nodes.area_m2[i]} * weights(i, 0) * values(i, 0);
    return total;
  };
  const auto ones = [](const Nodes& nodes) -> PatchLight { return PatchLight::Ones(nodes.size(), 1); };
  CHECK(sum(room.few, ones(room.few), condensed) == Approx(sum(room.many, ones(room.many), light)).margin(1e-4));
  CHECK(sum(room.few, plane_at(room.few), condensed) ==
        Approx(sum(room.many, plane_at(room.many), light)).margin(1e-3));
}

TEST_CASE("the transposed of both ways give the same sums", "[field][property]") {
  const Room room;
  const PatchLight at_many = PatchLight::Random(room.many.size(), 1);
  const PatchLight at_few = PatchLight::Random(room.few.size(), 1);
  CHECK(dot(at_many, room.resampling.refined(at_few)) ==
        Approx(dot(room.resampling.weights_of_few(at_many), at_few)).margin(1e-3));
  CHECK(dot(at_few, room.resampling.condensed(at_many)) ==
        Approx(dot(room.resampling.weights_of_many(at_few), at_many)).margin(1e-3));
}
