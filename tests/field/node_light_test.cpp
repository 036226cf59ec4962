#include "node_light.hpp"

#include <catch2/catch.hpp>

#include "rooms.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

constexpr double k_unevenness = 1e-4;

struct Lit {
  Scene scene;
  Mesh mesh;
  Nodes nodes;
  PatchLight light_lx;

  /// A lamp 10 cm below the ceiling and 15 cm from a wall makes a spot there that is smaller than the patches.
  explicit Lit(double patch_size_m, double unevenness) : scene(box_room(4, 3, 2.5)) {
    add_point(scene, {1.7, 0.15, 2.4}, cosine_power(1000, 2));
    mesh = make_mesh(scene, patch_size_m);
    nodes = gauss_nodes(mesh.patches, k_order);
    const Visibility visibility(scene);
    const std::vector<DirectLight> lights{
        {scene.luminaires[0], std::make_shared<const LightSource>(scene.distributions[0])}};
    light_lx = direct_at_nodes(mesh.patches, nodes, lights, visibility);
    if (unevenness > 0) resolve(scene, mesh, nodes, lights, visibility, unevenness, light_lx);
  }

  /// The integral of weight(x, y, z) x light over the south wall.
  template <class Weight>
  [[nodiscard]] double sum(const Weight& weight) const {
    double total = 0;
    for (int i = mesh.surfaces[2].begin * nodes.per_patch; i < mesh.surfaces[2].end * nodes.per_patch; ++i) {
      total += nodes.area_m2[i] * weight(nodes.x_m[i], nodes.z_m[i]) * light_lx(i, 0);
    }
    return total;
  }
};

}  // namespace

// Against the same wall in patches of 4 cm. Tolerance: what is left uneven, a ten-thousandth of the light a patch.
TEST_CASE("light that is resolved between nodes has the lumens and the middle of much finer patches",
          "[field][property]") {
  const Lit fine(0.04, 0);
  const Lit coarse(0.8, k_unevenness);
  const Lit plain(0.8, 0);
  const auto one = [](double, double) { return 1.0; };
  const auto along = [](double x, double) { return x; };
  const auto steep = [](double x, double z) { return (x - 1) * (x - 1) + z * z; };
  CHECK(coarse.sum(one) == Approx(fine.sum(one)).epsilon(1e-3));
  CHECK(coarse.sum(along) == Approx(fine.sum(along)).epsilon(1e-3));
  CHECK(coarse.sum(steep) == Approx(fine.sum(steep)).epsilon(1e-3));
  CHECK(plain.sum(one) != Approx(fine.sum(one)).epsilon(5e-3));  // what the nodes alone make of it
}

TEST_CASE("what the nodes catch of a luminaire is all that it sends out", "[field][exact]") {
  const Lit coarse(0.8, k_unevenness);
  const Falls falls = falls_on(coarse.nodes, coarse.light_lx);
  // 1000 cd cos^2: 2 pi 1000 / 3 lm. Tolerance: its table of intensities, in steps of a degree or so.
  CHECK(caught_lumens(falls)[0] == Approx(2 * 3.14159265 * 1000 / 3).epsilon(1e-3));
}

TEST_CASE("even light falls without deviation", "[field][exact]") {
  const Mesh mesh = make_mesh(box_room(3, 3, 2.4), 1);
  const Nodes nodes = gauss_nodes(mesh.patches, k_order);
  const Falls falls = falls_on(nodes, PatchLight::Constant(nodes.size(), 2, 100));
  CHECK(falls.deviation_lm.maxCoeff() < 1e-3F * falls.lumens.maxCoeff());
  CHECK(falls.lumens.sum() == Approx(2 * 100 * (2 * 9 + 4 * 3 * 2.4)).epsilon(1e-5));
}
