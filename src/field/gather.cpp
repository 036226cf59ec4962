#include "gather.hpp"

#include <algorithm>

#include "evenlit/base/parallel.hpp"

namespace evenlit {
namespace {

/// Receivers handled together, so that the sums over nodes become a product of matrices: more where the other matrix is
/// wide, which is laid out anew for each product.
int receivers_together(Eigen::Index columns) { return columns < 100 ? 16 : 128; }

}  // namespace

Gathered gathered(const NodeFactors& factors, const Lookout& lookout, const PatchLight& exitance_lm_m2) {
  const auto receivers = static_cast<Eigen::Index>(lookout.receivers.size());
  const Eigen::Index columns = exitance_lm_m2.cols();
  Gathered result{PatchLight::Zero(receivers, columns), PatchLight::Zero(receivers, columns),
                  Eigen::ArrayXf::Zero(receivers)};
  const int viewpoints = lookout.viewpoints.size();
  const int a_block = std::max(1, receivers_together(columns) / lookout.per_viewpoint);
  parallel_for((viewpoints + a_block - 1) / a_block, [&](int block) {
    thread_local FactorRows rows;
    const int begin = block * a_block;
    const int end = std::min(viewpoints, begin + a_block);
    factors.see(lookout, begin, end, rows);
    const Eigen::Index first = static_cast<Eigen::Index>(begin) * lookout.per_viewpoint;
    const Eigen::Index count = rows.factors.rows();
    result.missed.segment(first, count) = rows.missed;
    auto light = result.light_lx.middleRows(first, count);
    auto uncertain = result.uncertain_lx.middleRows(first, count);
    for (const PatchRun run : rows.runs) {
      const int begin_node = run.begin * factors.nodes_per_patch();
      const int width = run.size() * factors.nodes_per_patch();
      const auto exitance = exitance_lm_m2.middleRows(begin_node, width);
      light.noalias() += rows.factors.middleCols(begin_node, width) * exitance;
      if (rows.sampled.cols() == 0) continue;
      uncertain.noalias() += rows.sampled.middleCols(begin_node, width) * exitance;
    }
    uncertain.array().colwise() *= rows.open;
  });
  return result;
}

}  // namespace evenlit
