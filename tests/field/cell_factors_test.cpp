#include "cell_factors.hpp"

#include <catch2/catch.hpp>
#include <numeric>
#include <random>

#include "evenlit/field/form_factor.hpp"
#include "rooms.hpp"

using namespace evenlit;
using namespace evenlit::testing;
using Eigen::Vector3d;

// Against the polygon factor in double precision, which its own tests hold against published factors. Tolerance:
// single precision.
TEST_CASE("factors of all cells are those of their outlines above the horizon", "[field][property]") {
  const Mesh mesh = make_mesh(room_over({{0, 0}, {5.4, 0}, {5.4, 2.8}, {3, 2.8}, {3, 4.8}, {0, 4.8}}, 2.4), 1.1);
  const Nodes nodes = gauss_nodes(mesh.patches, 3);
  const CellFactors cells(mesh, nodes);
  std::vector<int> all(mesh.size());
  std::iota(all.begin(), all.end(), 0);
  std::mt19937 random(5);
  std::uniform_real_distribution<double> unit(0, 1);
  int cut = 0;
  for (int i = 0; i < 60; ++i) {
    const bool is_low = i % 3 == 0;
    const Vector3d point(0.05 + 2.9 * unit(random), 0.05 + 2.7 * unit(random),
                         is_low ? 0.001 : 0.05 + 2.3 * unit(random));
    const Receiver receiver{point, Vector3d(unit(random) - 0.5, unit(random) - 0.5, unit(random) - 0.3).normalized()};
    std::vector<float> factors(nodes.size(), -1);
    cells.put(receiver, all, 0, factors.data());
    for (int node = 0; node < nodes.size(); ++node) {
      const Patch& patch = mesh.patches[node / 9];
      const Quad cell = cell_of_node(patch, 3, node % 9);
      const bool in_front = patch.normal.dot(point - patch.centre_m) > 1e-6;
      const double expected = in_front ? configuration_factor(point, receiver.normal, cell) : 0;
      REQUIRE(factors[node] == Approx(expected).margin(3e-6).epsilon(2e-5));
      const auto [low, high] =
          std::minmax({receiver.normal.dot(cell[0] - point), receiver.normal.dot(cell[1] - point),
                       receiver.normal.dot(cell[2] - point), receiver.normal.dot(cell[3] - point)});
      if (low < 0 && high > 0) ++cut;
    }
  }
  CHECK(cut > 500);
}

TEST_CASE("only the cells of the patches that are named are put", "[field][exact]") {
  const Mesh mesh = make_mesh(box_room(3, 3, 2.4), 1);
  const Nodes nodes = gauss_nodes(mesh.patches, 2);
  const CellFactors cells(mesh, nodes);
  std::vector<float> factors(16, -1);
  cells.put({{1.5, 1.5, 2}, -Vector3d::UnitZ()}, {5, 3}, 8, factors.data());
  for (const int named : {4, 5, 6, 7, 12, 13, 14, 15}) CHECK(factors[named] > 0);
  for (const int other : {0, 1, 2, 3, 8, 9, 10, 11}) CHECK(factors[other] == -1);
}

// Down to what single precision tells of a point in a room: nodes of narrow strips of a floor lie so near to its edges.
TEST_CASE("next to an edge what a point sees still adds up to 1", "[field][exact]") {
  const Mesh mesh = make_mesh(box_room(3, 3, 2.4), 1);
  const Nodes nodes = gauss_nodes(mesh.patches, 3);
  const CellFactors cells(mesh, nodes);
  std::vector<int> all(mesh.size());
  std::iota(all.begin(), all.end(), 0);
  for (const double aside_m : {1e-2, 1e-3, 1e-4, 1e-5, 2e-6}) {
    for (double along_m = 0.02; along_m < 3; along_m += 0.0917) {
      std::vector<float> factors(nodes.size(), -1);
      cells.put({{along_m, aside_m, 0}, Vector3d::UnitZ()}, all, 0, factors.data());
      CAPTURE(aside_m, along_m);
      // Single precision of coordinates of some metres, against the distance from the edge.
      CHECK(std::accumulate(factors.begin(), factors.end(), 0.0) == Approx(1).margin(1e-6 + 1e-7 / aside_m));
    }
  }
}
