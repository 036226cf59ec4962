#include "interreflection.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "patch_sums.hpp"
#include "rooms.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

constexpr double k_whole_surfaces = 1000;  // a patch size beyond any wall: one patch a surface

double relative_row_error(const Mesh& mesh, const ExchangeAreas& areas, int row) {
  return std::abs(areas.row(row).cast<double>().sum() / mesh.patches[row].area_m2 - 1);
}

}  // namespace

// The 14 x 12 x 8 ft room with one patch a surface: form factors by Howell C-11 and C-14, rows sum to 1.
TEST_CASE("form factors between the surfaces of a 14 x 12 x 8 ft room", "[field][formula]") {
  const Scene scene = box_room(4.2672, 3.6576, 2.4384);
  const Mesh mesh = make_mesh(scene, k_whole_surfaces);
  const ExchangeAreas areas = exchange_areas(mesh, Visibility(scene));
  const auto factor = [&](int from, int to) { return areas(from, to) / mesh.patches[from].area_m2; };
  enum { floor, ceiling, south, east, north, west };
  // Single precision and the last printed digit.
  CHECK(factor(floor, ceiling) == Approx(0.344291).margin(2e-6));
  CHECK(factor(floor, west) == Approx(0.150497).margin(2e-6));
  CHECK(factor(floor, south) == Approx(0.177357).margin(2e-6));
  CHECK(factor(west, floor) == Approx(0.263370).margin(2e-6));
  CHECK(factor(west, east) == Approx(0.117875).margin(2e-6));
  CHECK(factor(west, north) == Approx(0.177692).margin(2e-6));
  CHECK(factor(south, floor) == Approx(0.266036).margin(2e-6));
  CHECK(factor(south, east) == Approx(0.152308).margin(2e-6));
  CHECK(factor(south, north) == Approx(0.163313).margin(2e-6));
}

// The same room: six equations by hand. 100 lx on the floor alone gives these totals.
TEST_CASE("interreflection between six whole surfaces", "[field][formula]") {
  const Scene scene = box_room(4.2672, 3.6576, 2.4384);
  const Mesh mesh = make_mesh(scene, k_whole_surfaces);
  PatchLight direct_lx = PatchLight::Zero(6, 1);
  direct_lx(0, 0) = 100;
  const PatchLight m =
      Interreflection(mesh, exchange_areas(mesh, Visibility(scene))).all_of(reflected(mesh, direct_lx));
  const auto total_lx = [&](int surface) { return m(surface, 0) / scene.surfaces[surface].reflectance; };
  CHECK(total_lx(0) == Approx(106.336259).epsilon(2e-6));  // single precision
  CHECK(total_lx(1) == Approx(10.708824).epsilon(1e-5));
  CHECK(total_lx(2) == Approx(10.351684).epsilon(1e-5));
  CHECK(total_lx(3) == Approx(10.304184).epsilon(1e-5));

  double absorbed_lm = 0;
  for (int i = 0; i < 6; ++i)
    absorbed_lm += total_lx(i) * mesh.patches[i].area_m2 * (1 - scene.surfaces[i].reflectance);
  CHECK(absorbed_lm == Approx(1560.771072).epsilon(2e-6));
}

TEST_CASE("every patch sends out all its light, and exchange is reciprocal", "[field][property]") {
  const auto plan = GENERATE(Polygon{{0, 0}, {5, 0}, {5, 4}, {0, 4}},                                  //
                             Polygon{{0, 0}, {5.4, 0}, {5.4, 2.8}, {3, 2.8}, {3, 4.8}, {0, 4.8}},      //
                             Polygon{{0, 0}, {6, 0}, {6, 4}, {4, 4}, {4, 2}, {2, 2}, {2, 4}, {0, 4}},  //
                             Polygon{{0, 0}, {4, 0}, {4.8, 0.8}, {4.8, 2.2}, {4, 3}, {0, 3}});
  const Scene scene = room_over(plan, 2.4);
  const Mesh mesh = make_mesh(scene, 0.6);
  const ExchangeAreas areas = exchange_areas(mesh, Visibility(scene));
  double worst = 0;
  for (int i = 0; i < mesh.size(); ++i) worst = std::max(worst, relative_row_error(mesh, areas, i));
  CHECK(worst < 5e-6);  // closed to 1e-6; sums of single-precision numbers add the rest
  CHECK((areas - areas.transpose()).cwiseAbs().maxCoeff() <= 1e-6F * areas.maxCoeff());  // scaled in another order
  CHECK(areas.minCoeff() >= 0);
}

TEST_CASE("a furnace glows evenly", "[field][exact]") {
  // Equal direct light and reflectance everywhere: M = rho E / (1 - rho) on every patch of any closed room.
  const double rho = GENERATE(0.1, 0.5, 0.9, 0.99);
  const Scene scene = room_over({{0, 0}, {6, 0}, {6, 4}, {4, 4}, {4, 2}, {2, 2}, {2, 4}, {0, 4}}, 2.4, {rho, rho, rho});
  const Mesh mesh = make_mesh(scene, 0.8);
  const PatchLight direct_lx = PatchLight::Constant(mesh.size(), 1, 100);
  const PatchLight m =
      Interreflection(mesh, exchange_areas(mesh, Visibility(scene))).all_of(reflected(mesh, direct_lx));
  const double expected = rho * 100 / (1 - rho);
  // Row sums are closed to 1e-6; 1 / (1 - rho) amplifies that.
  CHECK(m.minCoeff() == Approx(expected).epsilon(5e-6 / (1 - rho)));
  CHECK(m.maxCoeff() == Approx(expected).epsilon(5e-6 / (1 - rho)));
}

TEST_CASE("black surfaces send nothing back", "[field][exact]") {
  const Scene scene = box_room(3, 3, 3, {0, 0.5, 0});
  const Mesh mesh = make_mesh(scene, 1);
  const PatchLight m = Interreflection(mesh, exchange_areas(mesh, Visibility(scene)))
                           .all_of(reflected(mesh, PatchLight::Constant(mesh.size(), 1, 100)));
  for (int surface = 0; surface < 6; ++surface) {
    const auto& range = mesh.surfaces[surface];
    const auto part = m.middleRows(range.begin, range.end - range.begin);
    CHECK(part.maxCoeff() == (surface == 1 ? Approx(50) : Approx(0)));  // only the ceiling reflects, once
  }
}

TEST_CASE("what a wall hides exchanges nothing", "[field][exact]") {
  // A U: the ends of its arms cannot see each other.
  const Scene scene = room_over({{0, 0}, {6, 0}, {6, 4}, {4, 4}, {4, 2}, {2, 2}, {2, 4}, {0, 4}}, 2.4);
  const Mesh mesh = make_mesh(scene, 0.5);
  const ExchangeAreas areas = exchange_areas(mesh, Visibility(scene));
  const auto& right_end = mesh.surfaces[2 + 2];  // from (6, 4) to (4, 4)
  const auto& left_end = mesh.surfaces[2 + 6];   // from (2, 4) to (0, 4)
  CHECK(areas.block(right_end.begin, left_end.begin, right_end.end - right_end.begin, left_end.end - left_end.begin)
            .maxCoeff() == 0);
}

TEST_CASE("the two sides of an inner corner stand back to back and exchange nothing", "[field][exact]") {
  const Scene scene = room_over({{0, 0}, {5.4, 0}, {5.4, 2.8}, {3, 2.8}, {3, 4.8}, {0, 4.8}}, 2.4);
  const Mesh mesh = make_mesh(scene, 0.35);
  const ExchangeAreas areas = exchange_areas(mesh, Visibility(scene));
  const auto& one = mesh.surfaces[2 + 2];    // from (5.4, 2.8) to (3, 2.8)
  const auto& other = mesh.surfaces[2 + 3];  // from (3, 2.8) to (3, 4.8)
  CHECK(areas.block(one.begin, other.begin, one.end - one.begin, other.end - other.begin).maxCoeff() == 0);
}
