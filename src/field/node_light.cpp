#include "node_light.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "cell_aims.hpp"
#include "evenlit/base/parallel.hpp"
#include "gauss.hpp"

namespace evenlit {
namespace {

constexpr int k_nodes = k_order * k_order;

/// Of one patch, nodes x luminaires.
using NodeLumens = Eigen::Matrix<double, k_nodes, Eigen::Dynamic, Eigen::RowMajor>;
using FromQuarter = Eigen::Matrix<double, k_nodes, k_nodes>;

/// What lumens at the nodes of a patch's quarters (in the order of `quarters`) come to at its own nodes.
const std::array<FromQuarter, 4>& from_quarters() {
  static const auto k_matrices = [] {
    const auto& points = gauss_rule(k_order).nodes;
    std::array<FromQuarter, 4> matrices;
    for (int quarter = 0; quarter < 4; ++quarter) {
      for (int node = 0; node < k_nodes; ++node) {
        const auto values = lagrange_values(k_order, (quarter % 2 + points[node % k_order]) / 2,
                                            (quarter / 2 + points[node / k_order]) / 2);
        for (int own = 0; own < k_nodes; ++own) matrices[quarter](own, node) = values[own];
      }
    }
    return matrices;
  }();
  return k_matrices;
}

template <class T>
std::vector<T> chosen(const std::vector<T>& from, const std::vector<int>& which) {
  std::vector<T> result;
  for (const int i : which) result.push_back(from[i]);
  return result;
}

/// What a patch's nodes should stand for, lm: the patch is cut in four until the light falls evenly on the pieces.
///
/// @param even_lm deviations that are even enough, one a luminaire
NodeLumens resolved_lumens(const Patch& patch, const std::vector<DirectLight>& lights,
                           const std::vector<double>& even_lm, const Visibility& visibility, int times_left) {
  const auto pieces = quarters(patch);
  const std::vector<Patch> patches(pieces.begin(), pieces.end());
  const Nodes nodes = gauss_nodes(patches, k_order);
  const PatchLight light_lx = direct_at_nodes(patches, nodes, lights, visibility);
  const Falls falls = falls_on(nodes, light_lx);
  const Eigen::Map<const Eigen::ArrayXf> area(nodes.area_m2.data(), nodes.size());
  NodeLumens sum = NodeLumens::Zero(k_nodes, light_lx.cols());
  for (int quarter = 0; quarter < 4; ++quarter) {
    NodeLumens of_quarter =
        (light_lx.middleRows<k_nodes>(quarter * k_nodes).array().colwise() * area.segment<k_nodes>(quarter * k_nodes))
            .cast<double>();
    std::vector<int> uneven;
    for (int k = 0; times_left > 0 && k < std::ssize(lights); ++k) {
      if (falls.deviation_lm(quarter, k) > even_lm[k]) uneven.push_back(k);
    }
    if (!uneven.empty()) {
      of_quarter(Eigen::all, uneven) = resolved_lumens(patches[quarter], chosen(lights, uneven),
                                                       chosen(even_lm, uneven), visibility, times_left - 1);
    }
    sum += from_quarters()[quarter].lazyProduct(of_quarter);
  }
  return sum;
}

/// Makes what the patches catch of each luminaire's light all of it. What is missing, or too much, is put where light
/// falls unevenly, in proportion: there nodes may have missed it. What is far from all lights no closed room.
void catch_all(const Scene& scene, const Nodes& nodes, const std::vector<DirectLight>& lights, PatchLight& light_lx) {
  constexpr double k_most_missed = 0.03;
  const int n = nodes.per_patch;
  const Falls falls = falls_on(nodes, light_lx);
  const Eigen::ArrayXd caught = caught_lumens(falls);
  const Eigen::ArrayXf deviation = falls.deviation_lm.colwise().sum().transpose();
  for (Eigen::Index k = 0; k < light_lx.cols(); ++k) {
    const double missed = lights[k].lumens_into(scene) - caught[k];
    if (deviation[k] == 0 || std::abs(missed) > k_most_missed * caught[k]) continue;
    const auto share = static_cast<float>(missed / deviation[k]);
    for (Eigen::Index i = 0; i < falls.lumens.rows(); ++i) {
      if (falls.lumens(i, k) <= 0) continue;
      light_lx.col(k).segment(i * n, n) *= std::max(0.0F, 1 + share * falls.deviation_lm(i, k) / falls.lumens(i, k));
    }
  }
}

}  // namespace

PatchLight direct_at_nodes(const std::vector<Patch>& patches, const Nodes& nodes,
                           const std::vector<DirectLight>& lights, const Visibility& visibility) {
  constexpr int k_run = 32;
  constexpr int k_lines = 4;
  static const CellAims k_aims(k_order, k_lines);
  const int n = nodes.per_patch;
  const int count = static_cast<int>(patches.size());
  const bool may_hide = !visibility.is_always_clear();
  Figures figures;
  Figures openings;
  if (may_hide) {
    for (const Patch& patch : patches) visibility.add(figures, patch.centre_m, patch.radius_m, patch.corners_m);
    for (const DirectLight& light : lights) light.add_to(openings, visibility);
  }

  PatchLight direct(nodes.size(), lights.size());
  parallel_for((count + k_run - 1) / k_run, [&](int run) {
    const int begin = run * k_run;
    const int end = std::min(count, begin + k_run);
    Eigen::VectorXf lx((end - begin) * n);
    const int a_patch = k_aims.per_patch();
    std::vector<float> x(may_hide ? (end - begin) * a_patch : 0), y(x), z(x), clear(a_patch);
    std::vector<bool> is_placed(end - begin);
    Eigen::ArrayXf shares(n);
    View view;
    for (std::size_t k = 0; k < lights.size(); ++k) {
      auto column = direct.col(static_cast<Eigen::Index>(k)).segment(begin * n, (end - begin) * n);
      lights[k].open_illuminances(nodes, begin * n, end * n, lx.data());
      if (may_hide) visibility.look(openings, static_cast<int>(k), figures, begin, end, view);
      for (int i = 0; may_hide && i < end - begin; ++i) {
        if (view.sights[i] == Sight::clear) continue;
        auto of_patch = lx.segment(i * n, n).array();
        if (view.sights[i] == Sight::hidden) {
          of_patch = 0;
          continue;
        }
        const Points aims{&x[i * a_patch], &y[i * a_patch], &z[i * a_patch]};
        if (!is_placed[i]) {
          k_aims.place(patches[begin + i].corners_m, &x[i * a_patch], &y[i * a_patch], &z[i * a_patch]);
          is_placed[i] = true;
        }
        std::ranges::fill(clear, 1.0F);
        visibility.cross_seen(view, i, lights[k].centre(), aims, a_patch, clear.data());
        k_aims.average(clear.data(), shares.data());
        of_patch *= shares;
      }
      column = lx;
    }
  });
  return direct;
}

Falls falls_on(const Nodes& nodes, const PatchLight& direct_lx) {
  const int n = nodes.per_patch;
  const Eigen::Index patches = nodes.size() / n;
  Falls falls{PatchArray::Zero(patches, direct_lx.cols()), PatchArray::Zero(patches, direct_lx.cols())};
  const Eigen::Map<const Eigen::VectorXf> area(nodes.area_m2.data(), nodes.size());
  Eigen::Array<float, 1, Eigen::Dynamic> mean(direct_lx.cols());
  for (Eigen::Index i = 0; i < patches; ++i) {
    auto lumens = falls.lumens.row(i);
    auto deviation_lm = falls.deviation_lm.row(i);
    for (Eigen::Index node = i * n; node < (i + 1) * n; ++node) lumens += area[node] * direct_lx.row(node).array();
    const float whole = area.segment(i * n, n).sum();
    mean = lumens / whole;
    for (Eigen::Index node = i * n; node < (i + 1) * n; ++node) {
      deviation_lm += area[node] * (direct_lx.row(node).array() - mean).square();
    }
    deviation_lm = (whole * deviation_lm).sqrt();
  }
  return falls;
}

Eigen::ArrayXd caught_lumens(const Falls& falls) { return falls.lumens.cast<double>().colwise().sum().transpose(); }

void resolve(const Scene& scene, const Mesh& mesh, const Nodes& nodes, const std::vector<DirectLight>& lights,
             const Visibility& visibility, double unevenness, PatchLight& light_lx) {
  constexpr int k_most_times = 5;
  const Falls falls = falls_on(nodes, light_lx);
  const Eigen::ArrayXd caught = caught_lumens(falls);
  const Eigen::Map<const Eigen::ArrayXf> area(nodes.area_m2.data(), nodes.size());
  for (const auto& surface : mesh.surfaces) {
    if (surface.reflectance <= 0) continue;
    const Eigen::ArrayXd even_lm = unevenness * caught / surface.reflectance;
    parallel_for(surface.end - surface.begin, [&](int index) {
      const int i = surface.begin + index;
      std::vector<int> uneven;
      std::vector<double> of_uneven_lm;
      for (int k = 0; k < std::ssize(lights); ++k) {
        if (falls.deviation_lm(i, k) <= even_lm[k]) continue;
        uneven.push_back(k);
        of_uneven_lm.push_back(even_lm[k]);
      }
      if (uneven.empty()) return;
      const NodeLumens lumens =
          resolved_lumens(mesh.patches[i], chosen(lights, uneven), of_uneven_lm, visibility, k_most_times - 1);
      light_lx.middleRows<k_nodes>(i * k_nodes)(Eigen::all, uneven) =
          (lumens.cast<float>().array().colwise() / area.segment<k_nodes>(i * k_nodes)).matrix();
    });
  }
  catch_all(scene, nodes, lights, light_lx);
}

}  // namespace evenlit
