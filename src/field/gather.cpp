#include "gather.hpp"

#include <algorithm>

#include "evenlit/base/parallel.hpp"
#include "product.hpp"

namespace evenlit {

Gathered gathered(const NodeFactors& factors, const Lookout& lookout, const PatchLight& exitance_lm_m2,
                  int uncertain_columns) {
  constexpr int k_receivers_together = 32;
  const auto receivers = static_cast<Eigen::Index>(lookout.receivers.size());
  Gathered result{PatchLight::Zero(receivers, exitance_lm_m2.cols()), PatchLight::Zero(receivers, uncertain_columns),
                  Eigen::ArrayXf::Zero(receivers)};
  const int viewpoints = lookout.viewpoints.size();
  const int a_block = std::max(1, k_receivers_together / lookout.per_viewpoint);
  parallel_for((viewpoints + a_block - 1) / a_block, [&](int block) {
    thread_local FactorRows rows;
    const int begin = block * a_block;
    const int end = std::min(viewpoints, begin + a_block);
    factors.see(lookout, begin, end, rows);
    const Eigen::Index first = static_cast<Eigen::Index>(begin) * lookout.per_viewpoint;
    const Eigen::Index count = rows.factors.rows();
    const auto add = [&](Eigen::Index columns, PatchLight& light_lx) {
      for (const PatchRun run : rows.runs) {
        const int begin_node = run.begin * factors.nodes_per_patch();
        const int nodes = run.size() * factors.nodes_per_patch();
        add_product(rows.factors.middleCols(begin_node, nodes),
                    exitance_lm_m2.middleRows(begin_node, nodes).leftCols(columns), light_lx.middleRows(first, count));
      }
    };
    add(exitance_lm_m2.cols(), result.light_lx);
    if (uncertain_columns > 0 && factors.may_hide()) {
      keep_uncertain_part(factors.nodes_per_patch(), rows);
      add(uncertain_columns, result.uncertain_lx);
    }
    result.missed.segment(first, count) = rows.missed;
  });
  return result;
}

}  // namespace evenlit
