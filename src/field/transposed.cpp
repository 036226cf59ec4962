#include "transposed.hpp"

#include <algorithm>

#include "evenlit/base/parallel.hpp"

namespace evenlit {
namespace {

/// What all receivers see.
struct Seen {
  NodeWeights factors;
  NodeWeights uncertain;
  Eigen::ArrayXf missed;
};

/// Copies rows, and zeros where they hold nothing.
void put(const NodeWeights& rows, const std::vector<PatchRun>& runs, int per_patch, Eigen::Index first,
         NodeWeights& to) {
  auto target = to.middleRows(first, rows.rows());
  target.setZero();
  for (const PatchRun run : runs) {
    const int begin = run.begin * per_patch;
    const int width = run.size() * per_patch;
    target.middleCols(begin, width) = rows.middleCols(begin, width);
  }
}

Seen seen(const NodeFactors& factors, const Lookout& lookout, int nodes) {
  constexpr int k_together = 8;
  const auto receivers = static_cast<Eigen::Index>(lookout.receivers.size());
  const int viewpoints = lookout.viewpoints.size();
  Seen result{NodeWeights(receivers, nodes), {}, Eigen::ArrayXf(receivers)};
  if (factors.may_hide()) result.uncertain.resize(receivers, nodes);
  parallel_for((viewpoints + k_together - 1) / k_together, [&](int block) {
    thread_local FactorRows rows;
    const int begin = block * k_together;
    factors.see(lookout, begin, std::min(viewpoints, begin + k_together), rows);
    const Eigen::Index first = static_cast<Eigen::Index>(begin) * lookout.per_viewpoint;
    put(rows.factors, rows.runs, factors.nodes_per_patch(), first, result.factors);
    result.missed.segment(first, rows.missed.size()) = rows.missed;
    if (!factors.may_hide()) return;
    put(rows.sampled, rows.runs, factors.nodes_per_patch(), first, result.uncertain);
    result.uncertain.middleRows(first, rows.open.size()).array().colwise() *= rows.open;
  });
  return result;
}

/// weights x what nodes see of each other, which is never held as a whole.
NodeWeights through_nodes(const NodeWeights& weights, const NodeFactors& factors, const Lookout& nodes) {
  constexpr int k_a_block = 128;   // viewpoints
  constexpr int k_a_part = 8;      // of them that one thread sees at a time
  constexpr int k_a_stripe = 256;  // columns that one thread adds to
  const int all = static_cast<int>(weights.cols());
  NodeWeights result = NodeWeights::Zero(weights.rows(), weights.cols());
  NodeWeights block;
  for (int begin = 0; begin < nodes.viewpoints.size(); begin += k_a_block) {
    const int viewpoints = std::min(k_a_block, nodes.viewpoints.size() - begin);
    block.resize(static_cast<Eigen::Index>(viewpoints) * nodes.per_viewpoint, all);
    parallel_for((viewpoints + k_a_part - 1) / k_a_part, [&](int part) {
      thread_local FactorRows rows;
      const int first = part * k_a_part;
      factors.see(nodes, begin + first, begin + std::min(viewpoints, first + k_a_part), rows);
      put(rows.factors, rows.runs, factors.nodes_per_patch(), static_cast<Eigen::Index>(first) * nodes.per_viewpoint,
          block);
    });
    const auto of_block = weights.middleCols(static_cast<Eigen::Index>(begin) * nodes.per_viewpoint, block.rows());
    parallel_for((all + k_a_stripe - 1) / k_a_stripe, [&](int stripe) {
      const int first = stripe * k_a_stripe;
      const int width = std::min(k_a_stripe, all - first);
      result.middleCols(first, width).noalias() += of_block * block.middleCols(first, width);
    });
  }
  return result;
}

/// Weights of light that nodes reflect, turned into weights of the light that they get.
NodeWeights reflected(const Mesh& mesh, int per_patch, NodeWeights weights) {
  for (const auto& surface : mesh.surfaces) {
    weights.middleCols(static_cast<Eigen::Index>(surface.begin) * per_patch,
                       static_cast<Eigen::Index>(surface.end - surface.begin) * per_patch) *=
        static_cast<float>(surface.reflectance);
  }
  return weights;
}

/// Each patch's weights added up: receivers x patches.
NodeWeights sums_over_patches(const NodeWeights& weights, int per_patch) {
  NodeWeights sums(weights.rows(), weights.cols() / per_patch);
  for (Eigen::Index i = 0; i < sums.cols(); ++i)
    sums.col(i) = weights.middleCols(i * per_patch, per_patch).rowwise().sum();
  return sums;
}

/// Weights of patches' mean light as weights of their nodes' light.
NodeWeights of_means(const NodeWeights& weights, const Mesh& mesh, const Nodes& nodes) {
  NodeWeights result(weights.rows(), nodes.size());
  for (int node = 0; node < nodes.size(); ++node) {
    const int patch = node / nodes.per_patch;
    result.col(node) = nodes.area_m2[node] / static_cast<float>(mesh.patches[patch].area_m2) * weights.col(patch);
  }
  return result;
}

}  // namespace

Transposed transposed(const Mesh& mesh, const Nodes& nodes, const Interreflection& interreflection,
                      const NodeFactors& of_nodes, const Lookout& on_nodes, const NodeFactors& of_receivers,
                      const Lookout& on_receivers) {
  const int n = nodes.per_patch;
  // Everything by patch: each patch's exitance on all of its nodes.
  const auto by_patches = [&](const NodeWeights& weights) -> NodeWeights {
    const NodeWeights of_exitance = sums_over_patches(weights, n);
    return of_means(interreflection.weights_of_direct(of_exitance.transpose()).transpose(), mesh, nodes);
  };
  // The first reflection at nodes: rho x (direct - its mean) more than by patch.
  const auto deviations = [&](const NodeWeights& weights) -> NodeWeights {
    const NodeWeights of_direct = reflected(mesh, n, weights);
    return of_direct - of_means(sums_over_patches(of_direct, n), mesh, nodes);
  };
  const Seen on = seen(of_receivers, on_receivers, nodes.size());
  const NodeWeights reflected_once = reflected(mesh, n, on.factors);
  const NodeWeights later = through_nodes(reflected_once, of_nodes, on_nodes);

  Transposed result;
  result.missed = on.missed;
  result.first_change = deviations(on.factors);
  result.indirect = reflected_once + by_patches(later) + deviations(later);
  result.second_change = result.indirect - by_patches(on.factors) - result.first_change;
  if (on.uncertain.cols() > 0) result.uncertain = by_patches(on.uncertain) + deviations(on.uncertain);
  return result;
}

}  // namespace evenlit
