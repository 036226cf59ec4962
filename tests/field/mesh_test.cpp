#include "mesh.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "evenlit/field/trapezoids.hpp"
#include "gauss.hpp"
#include "rooms.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

double area_of(const std::vector<Trapezoid>& pieces) {
  double sum = 0;
  for (const auto& piece : pieces) sum += signed_area({piece.begin(), piece.end()});
  return sum;
}

Polygon round_room(int corners) {
  Polygon polygon;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::numbers::pi * i / corners + 0.1;
    polygon.emplace_back(2 * std::cos(angle), 2 * std::sin(angle));
  }
  return polygon;
}

}  // namespace

TEST_CASE("a rectangle stays one piece and an L becomes two", "[field][exact]") {
  CHECK(trapezoids({{{0, 0}, {5, 0}, {5, 4}, {0, 4}}}).size() == 1);
  CHECK(trapezoids({{{0, 0}, {5, 0}, {5, 2}, {3, 2}, {3, 4}, {0, 4}}}).size() == 2);
}

TEST_CASE("the pieces of a polygon cover its area and turn counter-clockwise", "[field][property]") {
  const auto polygon = GENERATE(Polygon{{0, 0}, {5, 0}, {5, 2}, {3, 2}, {3, 4}, {0, 4}},                  //
                                Polygon{{0, 0}, {6, 0}, {6, 4}, {4, 4}, {4, 2}, {2, 2}, {2, 4}, {0, 4}},  //
                                Polygon{{0, 0}, {4, 0}, {4.8, 0.8}, {4.8, 2.2}, {4, 3}, {0, 3}},          //
                                Polygon{{0, 0}, {3, 1}, {6, 0}, {5, 3}, {6, 6}, {3, 5}, {0, 6}, {1, 3}},  //
                                Polygon{{0, 0}, {2, 0}, {1, 3}}, round_room(7), round_room(300));
  const auto pieces = trapezoids({polygon});
  CHECK(area_of(pieces) == Approx(signed_area(polygon)).epsilon(1e-12));  // rounding
  for (const auto& piece : pieces) CHECK(signed_area({piece.begin(), piece.end()}) >= 0);
}

TEST_CASE("Gauss rules integrate polynomials up to degree 2n - 1", "[field][exact]") {
  for (const int points : {1, 2, 3, 5, 12, 16}) {
    CAPTURE(points);
    const auto& rule = gauss_rule(points);
    for (int degree = 0; degree < 2 * points; ++degree) {
      double sum = 0;
      for (int k = 0; k < points; ++k) sum += rule.weights[k] * std::pow(rule.nodes[k], degree);
      CHECK(sum == Approx(1.0 / (degree + 1)).epsilon(1e-12));  // rounding
    }
  }
}

TEST_CASE("patches, their nodes and the nodes' cells each add up to the surfaces", "[field][property]") {
  const Scene scene = room_over({{0, 0}, {4, 0}, {4.8, 0.8}, {4.8, 2.2}, {4, 3}, {0, 3}}, 2.4);
  const Mesh mesh = make_mesh(scene, 0.4);
  const Nodes nodes = gauss_nodes(mesh.patches, 3);
  const double floor_m2 = signed_area(scene.plan_m);
  double patches_m2 = 0;
  double nodes_m2 = 0;
  double cells_m2 = 0;
  for (int i = mesh.surfaces[0].begin; i < mesh.surfaces[0].end; ++i) {
    patches_m2 += mesh.patches[i].area_m2;
    for (int node = 0; node < nodes.per_patch; ++node) {
      nodes_m2 += nodes.area_m2[i * nodes.per_patch + node];
      const Quad cell = cell_of_node(mesh.patches[i], 3, node);
      cells_m2 +=
          (cell[2] - cell[0]).head<2>().dot(Eigen::Vector2d((cell[3] - cell[1]).y(), -(cell[3] - cell[1]).x())) / 2;
    }
  }
  CHECK(patches_m2 == Approx(floor_m2).epsilon(1e-12));  // rounding
  CHECK(nodes_m2 == Approx(floor_m2).epsilon(1e-5));     // single precision
  CHECK(cells_m2 == Approx(floor_m2).epsilon(1e-12));
}

TEST_CASE("no patch of a rectangular surface is longer than asked for", "[field][property]") {
  const Mesh mesh = make_mesh(box_room(5.49, 3.97, 2.44), 0.35);
  for (const auto& patch : mesh.patches) {
    CHECK((patch.corners_m[1] - patch.corners_m[0]).norm() <= 0.35 + 1e-12);
    CHECK((patch.corners_m[3] - patch.corners_m[0]).norm() <= 0.35 + 1e-12);
  }
}
