#include <fmt/format.h>

#include "benches.hpp"
#include "cases.hpp"
#include "evenlit/base/parallel.hpp"
#include "evenlit/field/direct.hpp"
#include "exchange.hpp"
#include "gather.hpp"
#include "interreflection.hpp"
#include "mesh.hpp"
#include "table.hpp"

namespace evenlit::bench {
namespace {

constexpr int k_order = 3;            // Gauss points a side of a patch that keep the first reflection
constexpr int k_exchange_points = 4;  // on each patch of a pair

/// Of one evaluation of the point kernel: difference 3, square 5, two cosines 5 + 6, clipping 2, product 2, 1 / (pi
/// r^4)
/// 4. A division counts as one, though it takes the time of many.
constexpr double k_kernel_flops = 27;

double kernel_pairs(const Mesh& mesh) {
  double pairs = 0;
  for (std::size_t a = 0; a < mesh.surfaces.size(); ++a) {
    for (std::size_t b = a + 1; b < mesh.surfaces.size(); ++b) {
      pairs += static_cast<double>(mesh.surfaces[a].end - mesh.surfaces[a].begin) *
               (mesh.surfaces[b].end - mesh.surfaces[b].begin);
    }
  }
  return pairs * k_exchange_points * k_exchange_points;
}

PatchLight light_on(const Nodes& nodes, const Mesh& mesh, const Scene& scene, const Visibility& visibility) {
  std::vector<DirectLight> lights;
  for (const auto& luminaire : scene.luminaires) {
    lights.emplace_back(luminaire, std::make_shared<IntensityLookup>(scene.distributions[luminaire.distribution]));
  }
  PatchLight result(nodes.x_m.size(), lights.size());
  for (const auto& surface : mesh.surfaces) {
    const int first = surface.begin * nodes.per_patch;
    const int count = (surface.end - surface.begin) * nodes.per_patch;
    Eigen::Matrix3Xd points_m(3, count);
    for (int i = 0; i < count; ++i) {
      points_m.col(i) << nodes.x_m[first + i], nodes.y_m[first + i], nodes.z_m[first + i];
    }
    const Eigen::Matrix3Xd normals = surface.normal.replicate(1, count);
    parallel_for(static_cast<int>(lights.size()), [&](int k) {
      result.col(k).segment(first, count) =
          lights[k].illuminances(visibility, points_m, normals).cast<float>().matrix();
    });
  }
  return result;
}

}  // namespace

void stage_bench(const Limits& limits) {
  print_table("Limits of this machine, all threads, measured",
              {{"", ""},
               {"fused multiply-adds, single precision", fmt::format("{:.1f} G/s", 1e-9 * limits.multiply_adds_per_s)},
               {"reading from memory", fmt::format("{:.1f} GB/s", 1e-9 * limits.read_bytes_per_s)}});

  const Case room = six_cans("", 0.7, 0.9);
  const Visibility visibility(room.scene);
  const double patch_m = usual_patch_size_m(room.scene);
  Mesh mesh;
  Nodes nodes;
  ExchangeAreas areas;
  PatchLight direct_lx;
  PatchLight exitance_lm_m2;
  Eigen::MatrixXd indirect_lx;
  const auto make_nodes = [&] {
    mesh = make_mesh(room.scene, patch_m);
    nodes = gauss_nodes(mesh, k_order);
  };
  const auto solve = [&] {
    PatchLight on_patches(mesh.size(), direct_lx.cols());
    for (int i = 0; i < mesh.size(); ++i) on_patches.row(i) = direct_lx.row(i * nodes.per_patch + nodes.per_patch / 2);
    exitance_lm_m2 = exitance(mesh, areas, on_patches);
  };
  constexpr int k_runs = 15;
  const auto timings = alternated(
      k_runs, {make_nodes, [&] { areas = exchange_areas(mesh, visibility); },
               [&] { direct_lx = light_on(nodes, mesh, room.scene, visibility); }, solve,
               [&] { indirect_lx = gathered(mesh, nodes, k_order, direct_lx, visibility, room.receivers); }});

  double all_s = 0;
  for (const auto& timing : timings) all_s += timing.minimum_s;
  const double n = mesh.size();
  const double receivers = static_cast<double>(room.receivers.size());
  const double cans = static_cast<double>(room.scene.luminaires.size());
  // The floor is below the receivers' horizon and skipped.
  const double seen_nodes = (n - (mesh.surfaces[0].end - mesh.surfaces[0].begin)) * nodes.per_patch;
  const double flops[] = {0, kernel_pairs(mesh) * k_kernel_flops, 0, 0,
                          receivers * seen_nodes * (k_kernel_flops + 2 * cans)};
  const char* const names[] = {"mesh and nodes", "exchange areas", "direct light on nodes", "exitance", "gather"};
  const auto rate = [&](int stage) { return flops[stage] / timings[stage].minimum_s; };

  std::vector<std::vector<std::string>> rows{{"stage", "ms", "of the solve", "Gflop/s", "of the limit"}};
  for (int stage = 0; stage < static_cast<int>(timings.size()); ++stage) {
    const bool counted = flops[stage] > 0;
    rows.push_back({names[stage], fmt::format("{:.2f}", 1e3 * timings[stage].minimum_s),
                    fmt::format("{:.0f} %", 100 * timings[stage].minimum_s / all_s),
                    counted ? fmt::format("{:.1f}", 1e-9 * rate(stage)) : "-",
                    counted ? fmt::format("{:.0f} %", 100 * rate(stage) / (2 * limits.multiply_adds_per_s)) : "-"});
  }
  print_table(fmt::format("Stages of one solve without its error estimate, all threads: {:.0f} patches, {:.0f} nodes, "
                          "{:.0f} points, {:.0f} cans",
                          n, n * nodes.per_patch, receivers, cans),
              rows);
  const double one_reading_s = n * n * sizeof(float) / limits.read_bytes_per_s;
  fmt::print(
      "  exitance takes the time of {:.0f} readings of its matrix from memory; direct light is {:.1f} M pairs/s\n",
      timings[3].minimum_s / one_reading_s, 1e-6 * n * nodes.per_patch * cans / timings[2].minimum_s);
}

}  // namespace evenlit::bench
