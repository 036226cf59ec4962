#include "lit_mesh.hpp"

#include <algorithm>
#include <cmath>

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

/// The largest share of any luminaire's light that a patch's standard deviation stands for.
double largest_share(const Eigen::RowVectorXf& deviation_lm, const Eigen::ArrayXd& lumens) {
  double largest = 0;
  for (Eigen::Index k = 0; k < lumens.size(); ++k) {
    if (lumens[k] > 0) largest = std::max(largest, deviation_lm[k] / lumens[k]);
  }
  return largest;
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
    batch.light = direct_at_nodes(batch.patches, batch.nodes, lights, visibility);
    const Falls falls = falls_on(batch.nodes, batch.light);
    if (round == 0) lumens = caught_lumens(falls);
    std::vector<int> uneven;
    for (int i = 0; i < static_cast<int>(batch.patches.size()); ++i) {
      const double reflectance = mesh.surfaces[batch.surfaces[i]].reflectance;
      const int expected = static_cast<int>(cuts.settled.size() + batch.patches.size() + 3 * uneven.size());
      const bool may_cut = round < k_most_rounds && expected < detail.most_patches;
      if (may_cut && reflectance * largest_share(falls.deviation_lm.row(i), lumens) > detail.unevenness) {
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
  LitMesh lit{{{}, std::move(surfaces)}, {}};
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
  return lit;
}

}  // namespace

LitMesh lit_mesh(const Scene& scene, const std::vector<DirectLight>& lights, const Visibility& visibility,
                 const MeshDetail& detail) {
  const Mesh coarse = make_mesh(scene, detail.patch_size_m);
  LitMesh lit = assembled(cut(coarse, lights, visibility, detail), coarse.surfaces, std::ssize(lights));
  resolve(scene, lit.mesh, gauss_nodes(lit.mesh.patches, k_order), lights, visibility, k_resolved * detail.unevenness,
          lit.direct_lx);
  return lit;
}

}  // namespace evenlit
