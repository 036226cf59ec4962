#include <fmt/format.h>

#include <optional>

#include "accuracy.hpp"
#include "benches.hpp"
#include "cut_room.hpp"
#include "evenlit/field/direct.hpp"
#include "gather.hpp"
#include "lit_mesh.hpp"
#include "one_thread.hpp"
#include "patch_sums.hpp"
#include "resampling.hpp"
#include "table.hpp"

namespace evenlit::bench {
namespace {

constexpr int k_exchange_points = 4;  // on each patch of a pair

/// Of one evaluation of the point kernel: difference 3, square 5, two cosines 5 + 6, clipping 2, product 2, 1 / (pi
/// r^4) 4. A division counts as one, though it takes the time of many.
constexpr double k_kernel_flops = 27;

std::vector<DirectLight> lights_of(const Scene& scene) {
  const auto source = std::make_shared<const LightSource>(scene.distributions.front());
  std::vector<DirectLight> lights;
  for (const auto& luminaire : scene.luminaires)
    lights.emplace_back(luminaire, source, OpeningDetail{.point_beyond = 10});
  return lights;
}

int patches_of(const PatchRange& surface) { return surface.end - surface.begin; }

/// Pairs of patches of different surfaces, each once; those that face away from each other count too.
double patch_pairs(const Mesh& mesh) {
  double pairs = 0;
  for (std::size_t a = 0; a < mesh.surfaces.size(); ++a) {
    for (std::size_t b = a + 1; b < mesh.surfaces.size(); ++b) {
      pairs += static_cast<double>(patches_of(mesh.surfaces[a])) * patches_of(mesh.surfaces[b]);
    }
  }
  return pairs;
}

/// Patches that are not on the floor, which receivers that look up do not see.
double patches_above(const Mesh& mesh) { return mesh.size() - patches_of(mesh.surfaces.front()); }

struct Stage {
  const char* name;
  std::function<void()> work;
  std::function<double()> flops;  ///< of kernels and products; 0 where they are not counted
};

void stages_of(const Case& room, const Limits& limits) {
  const Visibility visibility(room.scene);
  const std::vector<DirectLight> lights = lights_of(room.scene);
  const auto cans = static_cast<double>(lights.size());
  const auto receivers = static_cast<double>(room.receivers.size());
  std::optional<LitMesh> lit;
  std::optional<CutRoom> cut;
  PatchLight first_lm_m2;  // on nodes
  Gathered on_nodes;
  Gathered on_receivers;
  const auto factor_flops = [&](double pairs, const Nodes& nodes, double columns) {
    return pairs * nodes.per_patch * (k_kernel_flops + 2 * columns);
  };
  const std::vector<Stage> stages{
      {"mesh, direct light on nodes", [&] { lit = lit_mesh(room.scene, lights, visibility, coarse_mesh(room.scene)); },
       [] { return 0.0; }},
      {"exchange areas",
       [&] {
         cut.emplace(CutRoom{lit->mesh, visibility});
       },
       [&] { return patch_pairs(cut->mesh) * k_exchange_points * k_exchange_points * k_kernel_flops; }},
      {"exitance",
       [&] {
         const PatchLight means = means_over_patches(cut->nodes, reflected(cut->mesh, lit->direct_lx));
         first_lm_m2 = spread_over_nodes(cut->nodes, cut->interreflection.all_of(means));
       },
       [] { return 0.0; }},
      {"gather on nodes",
       [&] {
         on_nodes = gathered(cut->factors(cut->few_nodes, k_node_detail), lookout_of(cut->few_nodes, cut->patches),
                             Resampling(cut->nodes, cut->few_nodes).condensed(first_lm_m2));
       },
       [&] { return factor_flops(2 * patch_pairs(cut->mesh) * cut->few_nodes.per_patch, cut->few_nodes, cans); }},
      {"gather on receivers",
       [&] {
         on_receivers =
             gathered(cut->factors(cut->nodes, receiver_detail(MeshDetail{}.lines_of_sight)),
                      lookout_of(room.receivers, visibility), first_lm_m2.replicate(1, 3), static_cast<int>(cans));
       },
       [&] { return factor_flops(receivers * patches_above(cut->mesh), cut->nodes, 3 * cans); }}};
  std::vector<std::function<void()>> works;
  for (const Stage& stage : stages) works.push_back(stage.work);
  constexpr int k_runs = 9;
  const auto timings = alternated(k_runs, works);

  double all_s = 0;
  for (const auto& timing : timings) all_s += timing.minimum_s;
  std::vector<std::vector<std::string>> rows{{"stage", "ms", "of the solve", "Gflop/s", "of the peak"}};
  for (std::size_t i = 0; i < stages.size(); ++i) {
    const double seconds = timings[i].minimum_s;
    const double rate = stages[i].flops() / seconds;
    rows.push_back(
        {stages[i].name, milliseconds(seconds), fmt::format("{:.0f} %", 100 * seconds / all_s),
         rate > 0 ? fmt::format("{:.1f}", 1e-9 * rate) : "-",
         rate > 0 ? fmt::format("{:.0f} %", 100 * rate / (2 * limits.one_thread_multiply_adds_per_s)) : "-"});
  }
  print_table(fmt::format("Stages of one solve, {}: {} patches, {} nodes, {:.0f} receivers, {:.0f} cans; least wall "
                          "time of {}, one thread",
                          room.name, cut->mesh.size(), cut->nodes.size(), receivers, cans, k_runs),
              rows);
}

}  // namespace

void stage_bench(const Limits& limits) {
  const OneThread limit;
  for (const Case& room : {empty_room(), furnished_l()}) stages_of(room, limits);
}

}  // namespace evenlit::bench
