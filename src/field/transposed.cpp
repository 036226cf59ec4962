#include "transposed.hpp"

#include <algorithm>

#include "evenlit/base/parallel.hpp"
#include "patch_sums.hpp"
#include "product.hpp"
#include "resampling.hpp"

namespace evenlit {
namespace {

/// What all receivers see: nodes x receivers.
struct Seen {
  PatchLight factors;
  PatchLight uncertain;
  Eigen::ArrayXf missed;
};

/// Copies rows into the columns of a matrix that is 0.
void put(const NodeWeights& rows, const std::vector<PatchRun>& runs, int per_patch, Eigen::Index first,
         PatchLight& to) {
  for (const PatchRun run : runs) {
    const int begin = run.begin * per_patch;
    const int width = run.size() * per_patch;
    to.block(begin, first, width, rows.rows()) = rows.middleCols(begin, width).transpose();
  }
}

Seen seen(const NodeFactors& factors, const Lookout& lookout) {
  constexpr int k_together = 16;
  const int receivers = static_cast<int>(lookout.receivers.size());
  Seen result{PatchLight::Zero(factors.nodes(), receivers), {}, Eigen::ArrayXf(receivers)};
  if (factors.may_hide()) result.uncertain.setZero(factors.nodes(), receivers);
  parallel_for((receivers + k_together - 1) / k_together, [&](int block) {
    thread_local FactorRows rows;
    const int begin = block * k_together;
    factors.see(lookout, begin, std::min(receivers, begin + k_together), rows);
    put(rows.factors, rows.runs, factors.nodes_per_patch(), begin, result.factors);
    result.missed.segment(begin, rows.missed.size()) = rows.missed;
    if (!factors.may_hide()) return;
    keep_uncertain_part(factors.nodes_per_patch(), rows);
    put(rows.factors, rows.runs, factors.nodes_per_patch(), begin, result.uncertain);
  });
  return result;
}

/// Weights of what nodes get, as weights of what other nodes send there: what nodes see of each other, transposed, x
/// weights. Never held as a whole.
PatchLight through_nodes(const PatchLight& weights, const NodeFactors& factors, const Lookout& nodes) {
  constexpr int k_a_block = 128;   // viewpoints
  constexpr int k_a_part = 8;      // of them that one thread sees at a time
  constexpr int k_a_stripe = 192;  // rows that one thread adds to
  const int all = static_cast<int>(weights.rows());
  PatchLight result = PatchLight::Zero(all, weights.cols());
  PatchLight block;
  for (int begin = 0; begin < nodes.viewpoints.size(); begin += k_a_block) {
    const int viewpoints = std::min(k_a_block, nodes.viewpoints.size() - begin);
    block.setZero(all, static_cast<Eigen::Index>(viewpoints) * nodes.per_viewpoint);
    parallel_for((viewpoints + k_a_part - 1) / k_a_part, [&](int part) {
      thread_local FactorRows rows;
      const int first = part * k_a_part;
      factors.see(nodes, begin + first, begin + std::min(viewpoints, first + k_a_part), rows);
      put(rows.factors, rows.runs, factors.nodes_per_patch(), static_cast<Eigen::Index>(first) * nodes.per_viewpoint,
          block);
    });
    const auto of_block = weights.middleRows(static_cast<Eigen::Index>(begin) * nodes.per_viewpoint, block.cols());
    parallel_for((all + k_a_stripe - 1) / k_a_stripe, [&](int stripe) {
      const int first = stripe * k_a_stripe;
      const int count = std::min(k_a_stripe, all - first);
      add_product(block.middleRows(first, count), of_block, result.middleRows(first, count));
    });
  }
  return result;
}

}  // namespace

Transposed transposed(const CutRoom& room, const Lookout& receivers, const GatherDetail& detail) {
  const Mesh& mesh = room.mesh;
  const Nodes& nodes = room.nodes;
  const Interreflection& interreflection = room.interreflection;
  const auto of_patches = [&](const PatchLight& weights) { return sums_over_patches(nodes, weights); };
  // Weights of the patches' first exitance as weights of the light on nodes that it comes from.
  const auto of_means = [&](const PatchLight& weights) {
    return weights_of_means(mesh, nodes, reflected(mesh, weights));
  };
  // The first reflection at nodes: rho x (direct - its mean) more than by patch.
  const auto deviations = [&](const PatchLight& weights) -> PatchLight {
    return reflected(mesh, weights) - of_means(of_patches(weights));
  };
  const Resampling resampling(nodes, room.few_nodes);
  const auto gathered_at_nodes = [&](const PatchLight& weights) {
    return resampling.weights_of_many(through_nodes(resampling.weights_of_few(weights),
                                                    room.factors(room.few_nodes, k_node_detail),
                                                    lookout_of(room.few_nodes, room.patches)));
  };
  const Seen on = seen(room.factors(nodes, detail), receivers);
  const PatchLight of_exitance = of_patches(on.factors);
  const PatchLight of_first = interreflection.weights_of_first(of_exitance);
  const PatchLight of_defect = of_first - of_exitance;
  const PatchLight once = reflected(mesh, on.factors + weights_of_means(mesh, nodes, of_defect));
  const PatchLight later = gathered_at_nodes(once);

  const PatchLight first_change = deviations(on.factors);
  // The first reflection at nodes, its mean replaced by everything by patch, and later ones less what defects add.
  const PatchLight of_later = of_patches(later);
  const PatchLight indirect =
      once + reflected(mesh, later) + of_means(interreflection.weights_of_first(of_later - of_defect) - of_later);
  Transposed result;
  result.indirect = indirect.transpose();
  result.first_change = first_change.transpose();
  result.by_patches = reflected(mesh, of_first).transpose();
  if (on.uncertain.cols() > 0) {
    result.uncertain = reflected(mesh, interreflection.weights_of_first(of_patches(on.uncertain))).transpose();
  }
  result.missed = on.missed;
  return result;
}

}  // namespace evenlit
