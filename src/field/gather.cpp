#include "gather.hpp"

#include <algorithm>
#include <array>

#include "evenlit/base/parallel.hpp"
#include "evenlit/field/form_factor.hpp"
#include "kernel.hpp"

namespace evenlit {
namespace {

/// Receivers handled together, so that the sums over nodes become a product of matrices.
constexpr int k_block = 32;

/// Patches nearer than this many of their radii are integrated exactly.
constexpr double k_near = 3;

using Weights = Eigen::Matrix<float, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

struct Gather {
  const Mesh& mesh;
  const Nodes& nodes;
  int order;
  const Visibility& visibility;

  /// Configuration factors of a surface's nodes as one receiver sees them; `weights` starts at the surface's first
  /// node.
  void fill(const Receiver& receiver, const PatchRange& surface, float* weights) const {
    const int n = nodes.per_patch;
    point_kernel(facet(receiver.position_m, receiver.normal), nodes, surface.begin * n, surface.end * n,
                 surface.normal.cast<float>(), weights);
    for (int i = surface.begin; i < surface.end; ++i) {
      float* patch_weights = weights + (i - surface.begin) * n;
      const Patch& patch = mesh.patches[i];
      const double reach = k_near * patch.radius_m;
      const bool is_near = (patch.centre_m - receiver.position_m).squaredNorm() < reach * reach;
      if (is_near) fill_near(receiver, patch, patch_weights);
      if (!visibility.is_always_clear()) take_hidden_off(receiver, patch, is_near ? 4 : 2, patch_weights);
    }
  }

 private:
  void fill_near(const Receiver& receiver, const Patch& patch, float* weights) const {
    for (int node = 0; node < nodes.per_patch; ++node) {
      const auto cell = cell_of_node(patch, order, node);
      weights[node] = static_cast<float>(configuration_factor(receiver.position_m, receiver.normal, cell));
    }
  }

  /// @param side of the raster of points by which a cell that is partly hidden is sampled
  void take_hidden_off(const Receiver& receiver, const Patch& patch, int side, float* weights) const {
    const Eigen::Vector3d& from = receiver.position_m;
    const Eigen::Vector2d from_plan = from.head<2>();
    const Figure point{.centre_m = from, .radius_m = 0, .corners_m = {&from, 1}, .plan_m = {&from_plan, 1}};
    const auto view = visibility.view(point, figure_of(patch));
    if (view.sight == Sight::clear) return;
    for (int node = 0; node < nodes.per_patch; ++node) {
      const bool mixed = view.sight == Sight::mixed && weights[node] > 0;
      weights[node] *= mixed ? visible_share(from, cell_of_node(patch, order, node), side, view.obstacles) : 0;
    }
  }

  /// Share of a cell that a receiver sees, by side x side points of equal weight.
  [[nodiscard]] float visible_share(const Eigen::Vector3d& from, const Quad& cell, int side,
                                    const Obstacles& obstacles) const {
    int seen = 0;
    for (int row = 0; row < side; ++row) {
      for (int column = 0; column < side; ++column) {
        seen += visibility.is_clear(from, on_quad(cell, (column + 0.5) / side, (row + 0.5) / side), obstacles);
      }
    }
    return static_cast<float>(seen) / static_cast<float>(side * side);
  }
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

}  // namespace

Eigen::MatrixXd gathered(const Mesh& mesh, const Nodes& nodes, int order, const PatchLight& node_exitance_lm_m2,
                         const Visibility& visibility, const std::vector<Receiver>& receivers) {
  const Gather gather{mesh, nodes, order, visibility};
  const int count = static_cast<int>(receivers.size());
  Eigen::MatrixXd result(count, node_exitance_lm_m2.cols());
  parallel_for((count + k_block - 1) / k_block, [&](int block) {
    const int begin = block * k_block;
    const int rows = std::min(k_block, count - begin);
    PatchLight sums = PatchLight::Zero(rows, node_exitance_lm_m2.cols());
    Weights weights;
    for (const auto& surface : mesh.surfaces) {
      const int first = surface.begin * nodes.per_patch;
      const int columns = (surface.end - surface.begin) * nodes.per_patch;
      weights.setZero(rows, columns);
      bool any = false;
      for (int i = 0; i < rows; ++i) {
        if (!faces(mesh, surface, receivers[begin + i])) continue;
        gather.fill(receivers[begin + i], surface, &weights(i, 0));
        any = true;
      }
      if (any) sums.noalias() += weights * node_exitance_lm_m2.middleRows(first, columns);
    }
    result.middleRows(begin, rows) = sums.cast<double>();
  });
  return result;
}

}  // namespace evenlit
