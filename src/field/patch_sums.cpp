#include "patch_sums.hpp"

namespace evenlit {

PatchLight reflected(const Mesh& mesh, const PatchLight& light) {
  const Eigen::Index per_patch = light.rows() / mesh.size();
  PatchLight result(light.rows(), light.cols());
  for (const auto& surface : mesh.surfaces) {
    const Eigen::Index begin = surface.begin * per_patch;
    const Eigen::Index count = (surface.end - surface.begin) * per_patch;
    result.middleRows(begin, count) = static_cast<float>(surface.reflectance) * light.middleRows(begin, count);
  }
  return result;
}

PatchLight means_over_patches(const Nodes& nodes, const PatchLight& at_nodes) {
  const int n = nodes.per_patch;
  const int patches = nodes.size() / n;
  PatchLight means = PatchLight::Zero(patches, at_nodes.cols());
  for (int i = 0; i < patches; ++i) {
    float area = 0;
    for (int node = i * n; node < (i + 1) * n; ++node) {
      means.row(i) += nodes.area_m2[node] * at_nodes.row(node);
      area += nodes.area_m2[node];
    }
    means.row(i) /= area;
  }
  return means;
}

PatchLight weights_of_means(const Mesh& mesh, const Nodes& nodes, const PatchLight& of_patches) {
  PatchLight result(nodes.size(), of_patches.cols());
  for (int node = 0; node < nodes.size(); ++node) {
    const int patch = node / nodes.per_patch;
    const float share = nodes.area_m2[node] / static_cast<float>(mesh.patches[patch].area_m2);
    result.row(node) = share * of_patches.row(patch);
  }
  return result;
}

PatchLight spread_over_nodes(const Nodes& nodes, const PatchLight& of_patches) {
  const int n = nodes.per_patch;
  PatchLight result(of_patches.rows() * n, of_patches.cols());
  for (Eigen::Index i = 0; i < of_patches.rows(); ++i) result.middleRows(i * n, n).rowwise() = of_patches.row(i);
  return result;
}

PatchLight sums_over_patches(const Nodes& nodes, const PatchLight& of_nodes) {
  const int n = nodes.per_patch;
  PatchLight sums(of_nodes.rows() / n, of_nodes.cols());
  for (Eigen::Index i = 0; i < sums.rows(); ++i) sums.row(i) = of_nodes.middleRows(i * n, n).colwise().sum();
  return sums;
}

}  // namespace evenlit
