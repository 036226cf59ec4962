#include "lit_mesh.hpp"

#include <algorithm>
#include <cmath>

#include "cell_aims.hpp"
#include "evenlit/base/parallel.hpp"

namespace evenlit {
namespace {

/// Patches that are looked at together, and the light on them.
struct Batch {
  std::vector<Patch> patches;
  std::vector<int> surfaces;  ///< of each patch
  Nodes nodes;
  PatchLight light;  ///< nodes x luminaires, lx
};

/// A patch that is cut no further.
struct Settled {
  int surface;
  int batch;
  int patch;
};

/// Patches as they were cut, batch by batch.
struct Cuts {
  std::vector<Batch> batches;
  std::vector<Settled> settled;
};

Batch whole(const Mesh& mesh) {
  Batch batch;
  batch.patches = mesh.patches;
  for (int s = 0; s < static_cast<int>(mesh.surfaces.size()); ++s) {
    batch.surfaces.insert(batch.surfaces.end(), mesh.surfaces[s].end - mesh.surfaces[s].begin, s);
  }
  return batch;
}

Batch quartered(const Batch& batch, const std::vector<int>& which) {
  Batch result;
  for (const int i : which) {
    for (const Patch& quarter : quarters(batch.patches[i])) {
      result.patches.push_back(quarter);
      result.surfaces.push_back(batch.surfaces[i]);
    }
  }
  return result;
}

/// How one luminaire's light falls on one patch: the lumens, and the lumens that its standard deviation stands for.
struct Fall {
  double lumens = 0;
  double deviation = 0;
};

Fall fall_on(const Nodes& nodes, int patch, const PatchLight& direct_lx, Eigen::Index luminaire) {
  double area = 0;
  double sum = 0;
  double squares = 0;
  for (int node = patch * nodes.per_patch; node < (patch + 1) * nodes.per_patch; ++node) {
    const double lux = direct_lx(node, luminaire);
    area += nodes.area_m2[node];
    sum += nodes.area_m2[node] * lux;
    squares += nodes.area_m2[node] * lux * lux;
  }
  return {sum, std::sqrt(std::max(0.0, squares * area - sum * sum))};
}

/// The largest share of any luminaire's light that a patch's standard deviation stands for.
double unevenness(const Nodes& nodes, int patch, const PatchLight& direct_lx, const Eigen::ArrayXd& lumens) {
  double worst = 0;
  for (Eigen::Index k = 0; k < direct_lx.cols(); ++k) {
    if (lumens[k] > 0) worst = std::max(worst, fall_on(nodes, patch, direct_lx, k).deviation / lumens[k]);
  }
  return worst;
}

/// All the light of each luminaire that the patches catch.
Eigen::ArrayXd caught_lumens(const Nodes& nodes, const PatchLight& direct_lx) {
  const Eigen::Map<const Eigen::ArrayXf> area(nodes.area_m2.data(), nodes.size());
  return (direct_lx.array().colwise() * area).cast<double>().colwise().sum().transpose();
}

PatchLight mean_over_patches(const Nodes& nodes, const PatchLight& on_nodes) {
  const int n = nodes.per_patch;
  const int patches = nodes.size() / n;
  PatchLight mean = PatchLight::Zero(patches, on_nodes.cols());
  for (int i = 0; i < patches; ++i) {
    float area = 0;
    for (int node = i * n; node < (i + 1) * n; ++node) {
      mean.row(i) += nodes.area_m2[node] * on_nodes.row(node);
      area += nodes.area_m2[node];
    }
    mean.row(i) /= area;
  }
  return mean;
}

/// Light of nodes straight from the luminaires: nodes x luminaires, lx. Where an obstacle may hide a part of a patch,
/// each node gets the share of the light that its cell sees.
PatchLight direct_on(const std::vector<Patch>& patches, const Nodes& nodes, const std::vector<DirectLight>& lights,
                     const Visibility& visibility) {
  constexpr int k_run = 32;
  constexpr int k_lines = 4;
  const int n = nodes.per_patch;
  const int count = static_cast<int>(patches.size());
  const CellAims aims(k_order, k_lines);
  Figures figures;
  for (const Patch& patch : patches) visibility.add(figures, patch.centre_m, patch.radius_m, patch.corners_m);

  PatchLight direct(nodes.size(), lights.size());
  parallel_for((count + k_run - 1) / k_run, [&](int run) {
    const int begin = run * k_run;
    const int end = std::min(count, begin + k_run);
    Eigen::VectorXf lx((end - begin) * n);
    std::vector<float> x(aims.per_patch()), y(x), z(x), clear(x);
    Eigen::ArrayXf shares(n);
    View view;
    for (std::size_t k = 0; k < lights.size(); ++k) {
      lights[k].open_illuminances(nodes, begin * n, end * n, lx.data());
      visibility.look(lights[k].figure(visibility), 0, figures, begin, end, view);
      for (int i = begin; i < end; ++i) {
        auto of_patch = lx.segment((i - begin) * n, n).array();
        const Sight sight = view.sights[i - begin];
        if (sight == Sight::hidden) of_patch = 0;
        if (sight != Sight::mixed) continue;
        aims.place(patches[i].corners_m, x.data(), y.data(), z.data());
        visibility.cross_all(lights[k].centre(), {x.data(), y.data(), z.data()}, aims.per_patch(), clear.data());
        aims.average(clear.data(), shares.data());
        of_patch *= shares;
      }
      direct.col(static_cast<Eigen::Index>(k)).segment(begin * n, (end - begin) * n) = lx;
    }
  });
  return direct;
}

/// Makes what the patches catch of each luminaire's light all of it. What is missing, or too much, is put where light
/// falls unevenly, in proportion: there nodes may have missed it. What is far from all lights no closed room.
void catch_all(const Scene& scene, const Nodes& nodes, const std::vector<DirectLight>& lights, PatchLight& direct_lx) {
  constexpr double k_most_missed = 0.03;
  const int patches = nodes.size() / nodes.per_patch;
  const Eigen::ArrayXd caught = caught_lumens(nodes, direct_lx);
  for (std::size_t light = 0; light < lights.size(); ++light) {
    const auto k = static_cast<Eigen::Index>(light);
    const double missed = lights[light].lumens_into(scene) - caught[k];
    std::vector<Fall> falls;
    double deviation = 0;
    for (int i = 0; i < patches; ++i) {
      falls.push_back(fall_on(nodes, i, direct_lx, k));
      deviation += falls.back().deviation;
    }
    if (deviation == 0 || std::abs(missed) > k_most_missed * caught[k]) continue;
    for (int i = 0; i < patches; ++i) {
      if (falls[i].lumens == 0) continue;
      const double share = missed * falls[i].deviation / deviation / falls[i].lumens;
      direct_lx.col(k).segment(i * nodes.per_patch, nodes.per_patch) *= static_cast<float>(std::max(0.0, 1 + share));
    }
  }
}

/// Cuts what is uneven again and again.
Cuts cut(const Mesh& mesh, const std::vector<DirectLight>& lights, const Visibility& visibility,
         const MeshDetail& detail) {
  constexpr int k_most_rounds = 6;
  Cuts cuts;
  Eigen::ArrayXd lumens;
  for (Batch batch = whole(mesh); !batch.patches.empty();) {
    const int round = static_cast<int>(cuts.batches.size());
    batch.nodes = gauss_nodes(batch.patches, k_order);
    batch.light = direct_on(batch.patches, batch.nodes, lights, visibility);
    if (round == 0) lumens = caught_lumens(batch.nodes, batch.light);
    std::vector<int> uneven;
    for (int i = 0; i < static_cast<int>(batch.patches.size()); ++i) {
      const double reflectance = mesh.surfaces[batch.surfaces[i]].reflectance;
      const int expected = static_cast<int>(cuts.settled.size() + batch.patches.size() + 3 * uneven.size());
      const bool may_cut = round < k_most_rounds && expected < detail.most_patches;
      if (may_cut && reflectance * unevenness(batch.nodes, i, batch.light, lumens) > detail.unevenness) {
        uneven.push_back(i);
      } else {
        cuts.settled.push_back({batch.surfaces[i], round, i});
      }
    }
    cuts.batches.push_back(std::move(batch));
    batch = quartered(cuts.batches.back(), uneven);
  }
  std::ranges::stable_sort(cuts.settled, {}, &Settled::surface);
  return cuts;
}

/// The settled patches, surface by surface.
///
/// @param surfaces whose ranges are set anew
LitMesh assembled(const Cuts& cuts, std::vector<PatchRange> surfaces, Eigen::Index luminaires) {
  constexpr int n = k_order * k_order;
  LitMesh lit{{{}, std::move(surfaces)}, {}, {}, {}};
  lit.direct_lx.resize(std::ssize(cuts.settled) * n, luminaires);
  for (auto& surface : lit.mesh.surfaces) surface.begin = surface.end = 0;
  for (const auto& [surface, batch, patch] : cuts.settled) {
    PatchRange& range = lit.mesh.surfaces[surface];
    if (range.begin == range.end) range.begin = lit.mesh.size();
    lit.direct_lx.middleRows(static_cast<Eigen::Index>(lit.mesh.size()) * n, n) =
        cuts.batches[batch].light.middleRows(static_cast<Eigen::Index>(patch) * n, n);
    lit.mesh.patches.push_back(cuts.batches[batch].patches[patch]);
    range.end = lit.mesh.size();
  }
  lit.nodes = gauss_nodes(lit.mesh.patches, k_order);
  return lit;
}

}  // namespace

LitMesh lit_mesh(const Scene& scene, const std::vector<DirectLight>& lights, const Visibility& visibility,
                 const MeshDetail& detail) {
  const Mesh coarse = make_mesh(scene, detail.patch_size_m);
  LitMesh lit = assembled(cut(coarse, lights, visibility, detail), coarse.surfaces, std::ssize(lights));
  catch_all(scene, lit.nodes, lights, lit.direct_lx);
  lit.mean_lx = mean_over_patches(lit.nodes, lit.direct_lx);
  return lit;
}

}  // namespace evenlit
