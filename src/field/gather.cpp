#include "gather.hpp"

#include <algorithm>
#include <vector>

#include "evenlit/base/parallel.hpp"
#include "evenlit/field/form_factor.hpp"
#include "kernel.hpp"

namespace evenlit {
namespace {

/// Receivers handled together, so that the sums over nodes become a product of matrices.
constexpr int k_block = 16;

/// Patches nearer than this many of their radii are integrated exactly.
constexpr double k_near = 3;

using Weights = Eigen::Matrix<float, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// A run of surfaces that follow each other, as a range of patches.
struct Run {
  int begin = 0;
  int end = 0;
};

/// Whether any of a surface can be above a receiver's horizon and see its front.
bool faces(const Mesh& mesh, const PatchRange& surface, const Receiver& receiver) {
  if (surface.normal.dot(receiver.position_m) <= surface.offset_m) return false;
  return std::any_of(mesh.patches.begin() + surface.begin, mesh.patches.begin() + surface.end, [&](const Patch& patch) {
    return std::ranges::any_of(patch.corners_m, [&](const Eigen::Vector3d& corner) {
      return receiver.normal.dot(corner - receiver.position_m) > 0;
    });
  });
}

/// The patches that any of some receivers can see, in as few runs as may be.
std::vector<Run> faced(const Mesh& mesh, const Receiver* begin, const Receiver* end) {
  std::vector<Run> runs;
  for (const auto& surface : mesh.surfaces) {
    if (surface.begin == surface.end) continue;
    if (std::none_of(begin, end, [&](const Receiver& receiver) { return faces(mesh, surface, receiver); })) continue;
    if (runs.empty() || runs.back().end != surface.begin) runs.push_back({surface.begin, surface.begin});
    runs.back().end = surface.end;
  }
  return runs;
}

struct Gather {
  const Mesh& mesh;
  const Nodes& nodes;
  int order;
  const Visibility& visibility;
  Figures patches;

  /// Configuration factors of the nodes of a run of patches as one receiver sees them.
  void fill(const Receiver& receiver, Run run, float* weights) const {
    const int n = nodes.per_patch;
    point_kernel({receiver.position_m.cast<float>(), receiver.normal.cast<float>()}, nodes, run.begin * n, run.end * n,
                 weights);
    const bool may_hide = !visibility.is_always_clear();
    thread_local View view;
    if (may_hide) look(receiver, run, view);
    for (int i = run.begin; i < run.end; ++i) {
      float* patch_weights = weights + (i - run.begin) * n;
      const Sight sight = may_hide ? view.sights[i - run.begin] : Sight::clear;
      if (sight == Sight::hidden) {
        std::fill_n(patch_weights, n, 0.0F);
        continue;
      }
      const Patch& patch = mesh.patches[i];
      const double reach = k_near * patch.radius_m;
      const bool is_near = (patch.centre_m - receiver.position_m).squaredNorm() < reach * reach;
      if (is_near) fill_near(receiver, i, patch_weights);
      if (sight == Sight::mixed) take_hidden_off(receiver, i, i - run.begin, view, is_near ? 4 : 2, patch_weights);
    }
  }

 private:
  void look(const Receiver& receiver, Run run, View& view) const {
    Figures point;
    visibility.add(point, receiver.position_m, 0, {&receiver.position_m, 1});
    visibility.look(point, 0, patches, run.begin, run.end, view);
  }

  void fill_near(const Receiver& receiver, int patch, float* weights) const {
    const Eigen::Vector3d normal = nodes.normal(patch * nodes.per_patch).cast<double>();
    constexpr double k_on_plane_m = 1e-6;
    const bool in_front = normal.dot(receiver.position_m - mesh.patches[patch].centre_m) > k_on_plane_m;
    for (int node = 0; node < nodes.per_patch; ++node) {
      const auto cell = cell_of_node(mesh.patches[patch], order, node);
      weights[node] =
          in_front ? static_cast<float>(configuration_factor(receiver.position_m, receiver.normal, cell)) : 0;
    }
  }

  /// Multiplies the weights of a patch's nodes by the share of their cells that a receiver sees.
  ///
  /// @param side of the raster of points by which a cell is sampled
  void take_hidden_off(const Receiver& receiver, int patch, int place, const View& view, int side,
                       float* weights) const {
    thread_local SightLines lines;
    const int samples = side * side;
    const Eigen::Vector3f from = receiver.position_m.cast<float>();
    lines.resize(nodes.per_patch * samples);
    for (int node = 0; node < nodes.per_patch; ++node) {
      const Quad cell = cell_of_node(mesh.patches[patch], order, node);
      for (int k = 0; k < samples; ++k) {
        const Eigen::Vector3d to = on_quad(cell, (k % side + 0.5) / side, (k / side + 0.5) / side);
        lines.set(node * samples + k, from, to.cast<float>());
      }
    }
    for (std::size_t k = 0; k < view.obstacles.size(); ++k) {
      if (view.past[k][place] != Sight::clear) visibility.cross(view.obstacles[k], lines);
    }
    for (int node = 0; node < nodes.per_patch; ++node) {
      float seen = 0;
      for (int k = 0; k < samples; ++k) seen += lines.clear[node * samples + k];
      weights[node] *= seen / static_cast<float>(samples);
    }
  }
};

}  // namespace

Eigen::MatrixXd gathered(const Mesh& mesh, const Nodes& nodes, int order, const PatchLight& node_exitance_lm_m2,
                         const Visibility& visibility, const std::vector<Receiver>& receivers) {
  const Gather gather{mesh, nodes, order, visibility, figures_of(mesh, visibility)};
  const int count = static_cast<int>(receivers.size());
  Eigen::MatrixXd result(count, node_exitance_lm_m2.cols());
  parallel_for((count + k_block - 1) / k_block, [&](int block) {
    const Receiver* const first = receivers.data() + static_cast<std::ptrdiff_t>(block) * k_block;
    const int rows = std::min(k_block, count - block * k_block);
    PatchLight sums = PatchLight::Zero(rows, node_exitance_lm_m2.cols());
    Weights weights;
    for (const Run run : faced(mesh, first, first + rows)) {
      const int columns = (run.end - run.begin) * nodes.per_patch;
      weights.resize(rows, columns);
      for (int i = 0; i < rows; ++i) gather.fill(first[i], run, &weights(i, 0));
      sums.noalias() += weights * node_exitance_lm_m2.middleRows(run.begin * nodes.per_patch, columns);
    }
    result.middleRows(block * k_block, rows) = sums.cast<double>();
  });
  return result;
}

}  // namespace evenlit
