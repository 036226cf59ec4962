#include "gather.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "cell_aims.hpp"
#include "evenlit/base/parallel.hpp"
#include "evenlit/base/vectorised.hpp"
#include "kernel.hpp"
#include "near_factors.hpp"

namespace evenlit {
namespace {

/// Receivers handled together, so that the sums over nodes become a product of matrices: more where the other matrix is
/// wide, which is laid out anew for each product.
int receivers_together(Eigen::Index columns) { return columns < 100 ? 16 : 128; }

using Weights = Eigen::Matrix<float, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// Patches that follow each other.
struct Run {
  int begin = 0;
  int end = 0;
};

/// Whether any of a surface can be above a receiver's horizon and see its front.
bool faces(const PatchRange& surface, const Receiver& receiver) {
  if (surface.normal.dot(receiver.position_m) <= surface.offset_m) return false;
  return std::ranges::any_of(surface.corners_m, [&](const Eigen::Vector3d& corner) {
    return receiver.normal.dot(corner - receiver.position_m) > 0;
  });
}

/// The patches that any of some receivers can see, in as few runs as may be.
std::vector<Run> faced(const Mesh& mesh, const Receiver* begin, const Receiver* end) {
  std::vector<Run> runs;
  for (const auto& surface : mesh.surfaces) {
    if (surface.begin == surface.end) continue;
    if (std::none_of(begin, end, [&](const Receiver& receiver) { return faces(surface, receiver); })) continue;
    if (runs.empty() || runs.back().end != surface.begin) runs.push_back({surface.begin, surface.begin});
    runs.back().end = surface.end;
  }
  return runs;
}

/// Multiplies each weight by the mean of its `per_cell` shares.
EVENLIT_VECTORISED
void scale(const float* __restrict shares, int per_cell, int count, float* __restrict weights) {
  if (per_cell == 1) {
    for (int i = 0; i < count; ++i) weights[i] *= shares[i];
    return;
  }
  const float one = 1 / static_cast<float>(per_cell);
  for (int i = 0; i < count; ++i) {
    float sum = 0;
    for (int k = 0; k < per_cell; ++k) sum += shares[i * per_cell + k];
    weights[i] *= sum * one;
  }
}

class Gather {
 public:
  Gather(const Mesh& mesh, const Figures& patches, const Nodes& nodes, int order, const Visibility& visibility,
         const GatherDetail& detail)
      : mesh_(mesh),
        nodes_(nodes),
        order_(order),
        visibility_(visibility),
        detail_(detail),
        patches_(patches),
        near_aims_(order, detail.near_lines),
        far_aims_(order, detail.far_lines) {
    if (visibility.is_always_clear()) return;
    const std::size_t per_patch = far_aims_.per_patch();
    for (auto* values : {&far_x_m_, &far_y_m_, &far_z_m_}) values->resize(mesh.size() * per_patch);
    for (int i = 0; i < mesh.size(); ++i) {
      far_aims_.place(mesh.patches[i].corners_m, &far_x_m_[i * per_patch], &far_y_m_[i * per_patch],
                      &far_z_m_[i * per_patch]);
    }
  }

  /// Configuration factors of the nodes of a run of patches as the receivers of one viewpoint see them, in rows that
  /// are `stride` apart.
  ///
  /// @param sampled takes those of patches that may be partly hidden, `weights` all others
  /// @param counts  how many such patches each receiver sees something of; added to
  void fill(const Lookout& lookout, int viewpoint, Run run, float* weights, float* sampled, Eigen::Index stride,
            float* counts) const {
    thread_local Sights sights;
    sights.near = near_patches(lookout.viewpoints, viewpoint, run);
    const bool may_hide = !visibility_.is_always_clear();
    if (may_hide) look(lookout.viewpoints, viewpoint, run, sights);
    for (int k = 0; k < lookout.per_viewpoint; ++k) {
      const Receiver& receiver = lookout.receivers[viewpoint * lookout.per_viewpoint + k];
      float* const row = weights + k * stride;
      fill_open(receiver, run, sights.near, row);
      if (!may_hide) continue;
      take_hidden_off(receiver, run, sights, row);
      counts[k] += move_sampled(sights.view, row, sampled + k * stride);
    }
  }

 private:
  /// What the receivers of a viewpoint have in common.
  struct Sights {
    std::vector<int> near;  ///< patches that may be near to one of them
    View view;
    std::vector<Passage> passages;
    std::vector<float> open;   ///< one an aim: 0 where its patch is hidden, else 1
    std::vector<float> clear;  ///< working space
  };

  [[nodiscard]] std::vector<int> near_patches(const Figures& viewpoints, int viewpoint, Run run) const {
    const float x = viewpoints.x_m[viewpoint];
    const float y = viewpoints.y_m[viewpoint];
    const float z = viewpoints.z_m[viewpoint];
    std::vector<int> near;
    for (int i = run.begin; i < run.end; ++i) {
      const float dx = patches_.x_m[i] - x;
      const float dy = patches_.y_m[i] - y;
      const float dz = patches_.z_m[i] - z;
      const float reach = static_cast<float>(detail_.near) * patches_.radius_m[i] + viewpoints.radius_m[viewpoint];
      if (dx * dx + dy * dy + dz * dz < reach * reach) near.push_back(i);
    }
    return near;
  }

  void look(const Figures& viewpoints, int viewpoint, Run run, Sights& sights) const {
    visibility_.look(viewpoints, viewpoint, patches_, run.begin, run.end, sights.view);
    sights.passages = passages(sights.view);
    const int a_patch = far_aims_.per_patch();
    sights.open.resize(static_cast<std::size_t>(run.end - run.begin) * a_patch);
    for (int i = 0; i < run.end - run.begin; ++i) {
      std::fill_n(sights.open.data() + i * a_patch, a_patch, sights.view.sights[i] == Sight::hidden ? 0.0F : 1.0F);
    }
  }

  [[nodiscard]] bool is_near(const Receiver& receiver, const Patch& patch) const {
    const double reach = detail_.near * patch.radius_m;
    return (patch.centre_m - receiver.position_m).squaredNorm() < reach * reach;
  }

  [[nodiscard]] bool is_cut_by_horizon(const Receiver& receiver, int patch) const {
    const Eigen::Vector3d centre(patches_.x_m[patch], patches_.y_m[patch], patches_.z_m[patch]);
    return std::abs(receiver.normal.dot(centre - receiver.position_m)) < patches_.radius_m[patch] &&
           !is_near(receiver, mesh_.patches[patch]);
  }

  void fill_open(const Receiver& receiver, Run run, const std::vector<int>& near, float* weights) const {
    const int n = nodes_.per_patch;
    point_kernel({receiver.position_m.cast<float>(), receiver.normal.cast<float>()}, nodes_, run.begin * n, run.end * n,
                 weights);
    for (const int i : near) {
      if (!is_near(receiver, mesh_.patches[i])) continue;
      near_factors(receiver.position_m, receiver.normal, mesh_.patches[i], order_, weights + (i - run.begin) * n);
    }
    if (!detail_.cut_at_horizon) return;
    for (int i = run.begin; i < run.end; ++i) {
      if (!is_cut_by_horizon(receiver, i)) continue;
      near_factors(receiver.position_m, receiver.normal, mesh_.patches[i], order_, weights + (i - run.begin) * n);
    }
  }

  /// Multiplies the weights by the shares of the nodes' cells that a receiver sees.
  void take_hidden_off(const Receiver& receiver, Run run, Sights& sights, float* weights) const {
    const int a_patch = far_aims_.per_patch();
    const int n = nodes_.per_patch;
    auto& clear = sights.clear;
    clear = sights.open;
    const Eigen::Vector3f from = receiver.position_m.cast<float>();
    for (const auto& [obstacle, begin, end] : sights.passages) {
      const std::size_t first = static_cast<std::size_t>(run.begin + begin) * a_patch;
      visibility_.cross(obstacle, from, {&far_x_m_[first], &far_y_m_[first], &far_z_m_[first]}, (end - begin) * a_patch,
                        clear.data() + begin * a_patch);
    }
    if (detail_.near_lines > detail_.far_lines) look_closely(receiver, run, sights, clear);
    scale(clear.data(), far_aims_.per_cell(), (run.end - run.begin) * n, weights);
  }

  /// @return how many patches it moved something of
  float move_sampled(const View& view, float* weights, float* sampled) const {
    const int n = nodes_.per_patch;
    float count = 0;
    for (int i = 0; i < static_cast<int>(view.sights.size()); ++i) {
      if (view.sights[i] != Sight::mixed) continue;
      std::swap_ranges(weights + i * n, weights + (i + 1) * n, sampled + i * n);
      count += std::any_of(sampled + i * n, sampled + (i + 1) * n, [](float w) { return w > 0; }) ? 1 : 0;
    }
    return count;
  }

  /// Puts the shares of near patches that may be partly hidden in the place of what the far aims found.
  void look_closely(const Receiver& receiver, Run run, const Sights& sights, std::vector<float>& clear) const {
    thread_local std::vector<float> x, y, z, seen, shares;
    const int count = near_aims_.per_patch();
    for (auto* values : {&x, &y, &z}) values->resize(count);
    shares.resize(nodes_.per_patch);
    for (const int patch : sights.near) {
      const int place = patch - run.begin;
      if (sights.view.sights[place] != Sight::mixed || !is_near(receiver, mesh_.patches[patch])) continue;
      seen.assign(count, 1);
      near_aims_.place(mesh_.patches[patch].corners_m, x.data(), y.data(), z.data());
      for (std::size_t k = 0; k < sights.view.obstacles.size(); ++k) {
        if (sights.view.past[k][place] == Sight::clear) continue;
        visibility_.cross(sights.view.obstacles[k], receiver.position_m.cast<float>(), {x.data(), y.data(), z.data()},
                          count, seen.data());
      }
      near_aims_.average(seen.data(), shares.data());
      for (int node = 0; node < nodes_.per_patch; ++node) {
        std::fill_n(clear.data() + place * far_aims_.per_patch() + node * far_aims_.per_cell(), far_aims_.per_cell(),
                    shares[node]);
      }
    }
  }

  const Mesh& mesh_;
  const Nodes& nodes_;
  int order_;
  const Visibility& visibility_;
  GatherDetail detail_;
  const Figures& patches_;
  CellAims near_aims_;
  CellAims far_aims_;
  std::vector<float> far_x_m_, far_y_m_, far_z_m_;  ///< of all patches
};

/// Makes each receiver's factors add up to 1 by scaling those that were sampled. What is far from 1 is no closed room,
/// but a receiver inside a box or on an edge.
///
/// @param known, sampled receivers x (columns and the sum of the factors)
/// @param counts  patches that were sampled
/// @param side    lines of sight along a patch
Gathered closed(const PatchLight& known, const PatchLight& sampled, const Eigen::ArrayXf& counts, int side) {
  constexpr float k_open = 0.2F;
  constexpr float k_least_sampled = 1e-3F;
  const Eigen::Index columns = known.cols() - 1;
  Gathered result{known.leftCols(columns), sampled.leftCols(columns), Eigen::ArrayXf::Zero(known.rows())};
  for (Eigen::Index i = 0; i < known.rows(); ++i) {
    const float by_samples = sampled(i, columns);
    const float missed = 1 - known(i, columns) - by_samples;
    float scale = 1;
    if (std::abs(missed) < k_open) {
      result.missed[i] = std::abs(missed);
      if (by_samples > k_least_sampled) scale = std::clamp(1 + missed / by_samples, 1 - k_open, 1 + k_open);
    }
    result.light_lx.row(i) += scale * sampled.row(i).head(columns);
    result.uncertain_lx.row(i) *= 2 / (static_cast<float>(side) * std::sqrt(std::max(1.0F, counts[i])));
  }
  return result;
}

}  // namespace

Lookout lookout_of(const std::vector<Receiver>& receivers, const Visibility& visibility) {
  Facets facets;
  for (const auto& receiver : receivers) facets.add(receiver.position_m, receiver.normal);
  return {receivers, 1, visibility.figures_of(facets.points(), facets.size())};
}

Lookout lookout_of(const Nodes& nodes, const Figures& patches) {
  Lookout lookout{{}, nodes.per_patch, patches};
  for (int node = 0; node < nodes.size(); ++node) {
    lookout.receivers.push_back({nodes.point(node).cast<double>(), nodes.normal(node).cast<double>()});
  }
  return lookout;
}

Gathered gathered(const Mesh& mesh, const Figures& patches, const Nodes& nodes, int order,
                  const PatchLight& exitance_lm_m2, const Visibility& visibility, const Lookout& lookout,
                  const GatherDetail& detail) {
  const Gather gather(mesh, patches, nodes, order, visibility, detail);
  PatchLight columns(exitance_lm_m2.rows(), exitance_lm_m2.cols() + 1);
  columns << exitance_lm_m2, PatchLight::Ones(exitance_lm_m2.rows(), 1);
  const auto receivers = static_cast<Eigen::Index>(lookout.receivers.size());
  PatchLight known = PatchLight::Zero(receivers, columns.cols());
  PatchLight sampled = PatchLight::Zero(receivers, columns.cols());

  Eigen::ArrayXf counts = Eigen::ArrayXf::Zero(receivers);

  const bool may_hide = !visibility.is_always_clear();
  const int viewpoints = lookout.viewpoints.size();
  const int a_block = std::max(1, receivers_together(columns.cols()) / lookout.per_viewpoint);
  parallel_for((viewpoints + a_block - 1) / a_block, [&](int block) {
    const int begin = block * a_block;
    const int count = std::min(a_block, viewpoints - begin);
    const int rows = count * lookout.per_viewpoint;
    const int first_row = begin * lookout.per_viewpoint;
    const Receiver* const first = lookout.receivers.data() + first_row;
    Weights weights;
    Weights sampled_weights;
    for (const Run run : faced(mesh, first, first + rows)) {
      const int width = (run.end - run.begin) * nodes.per_patch;
      const auto exitance = columns.middleRows(run.begin * nodes.per_patch, width);
      weights.resize(rows, width);
      if (may_hide) sampled_weights.setZero(rows, width);
      for (int i = 0; i < count; ++i) {
        const int row = i * lookout.per_viewpoint;
        gather.fill(lookout, begin + i, run, &weights(row, 0), may_hide ? &sampled_weights(row, 0) : nullptr, width,
                    &counts[first_row + row]);
      }
      known.middleRows(first_row, rows).noalias() += weights * exitance;
      if (may_hide) sampled.middleRows(first_row, rows).noalias() += sampled_weights * exitance;
    }
  });
  return closed(known, sampled, counts, order * detail.far_lines);
}

}  // namespace evenlit
