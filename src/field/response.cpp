#include "evenlit/field/response.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <memory>

#include "evenlit/base/parallel.hpp"
#include "evenlit/field/direct.hpp"
#include "gather.hpp"
#include "interreflection.hpp"
#include "mesh.hpp"

namespace evenlit {
namespace {

/// Gauss points along a patch's side, at which the light straight from the luminaires is kept. The first reflection is
/// computed from these, all later ones from patch means: a hot spot is sharp only until it has been reflected once.
constexpr int k_order = 3;

/// Surfaces collect an opening's light with a tenth of the detail that receivers get: their light reaches a receiver
/// only after averaging over many points.
constexpr OpeningDetail k_surface_detail{.point_beyond = 10};

/// The scene's distributions, prepared.
using Intensities = std::vector<std::shared_ptr<const IntensityLookup>>;

Intensities intensities_of(const Scene& scene) {
  Intensities all;
  for (const auto& distribution : scene.distributions) {
    all.push_back(std::make_shared<const IntensityLookup>(distribution));
  }
  return all;
}

std::vector<DirectLight> direct_lights(const Scene& scene, const Intensities& intensities, OpeningDetail detail = {}) {
  std::vector<DirectLight> lights;
  for (const auto& luminaire : scene.luminaires) {
    lights.emplace_back(luminaire, intensities[luminaire.distribution], detail);
  }
  return lights;
}

/// Calls `compute(begin, end)` for runs of 0...count, in parallel.
void in_runs(int count, const std::function<void(int begin, int end)>& compute) {
  constexpr int k_run = 256;
  parallel_for((count + k_run - 1) / k_run, [&](int run) { compute(run * k_run, std::min(count, (run + 1) * k_run)); });
}

/// Nodes x luminaires, lx.
PatchLight direct_on_nodes(const std::vector<DirectLight>& lights, const Visibility& visibility, const Mesh& mesh,
                           const Nodes& nodes) {
  PatchLight direct(nodes.x_m.size(), lights.size());
  for (const auto& surface : mesh.surfaces) {
    const int first = surface.begin * nodes.per_patch;
    in_runs((surface.end - surface.begin) * nodes.per_patch, [&](int begin, int end) {
      Eigen::Matrix3Xd points_m(3, end - begin);
      for (int i = begin; i < end; ++i) {
        points_m.col(i - begin) << nodes.x_m[first + i], nodes.y_m[first + i], nodes.z_m[first + i];
      }
      const Eigen::Matrix3Xd normals = surface.normal.replicate(1, end - begin);
      for (std::size_t k = 0; k < lights.size(); ++k) {
        direct.col(static_cast<Eigen::Index>(k)).segment(first + begin, end - begin) =
            lights[k].illuminances(visibility, points_m, normals).cast<float>().matrix();
      }
    });
  }
  return direct;
}

PatchLight mean_over_patches(const Mesh& mesh, const Nodes& nodes, const PatchLight& on_nodes) {
  PatchLight mean = PatchLight::Zero(mesh.size(), on_nodes.cols());
  for (int i = 0; i < mesh.size(); ++i) {
    float area = 0;
    for (int node = i * nodes.per_patch; node < (i + 1) * nodes.per_patch; ++node) {
      mean.row(i) += nodes.area_m2[node] * on_nodes.row(node);
      area += nodes.area_m2[node];
    }
    mean.row(i) /= area;
  }
  return mean;
}

/// rho x direct at each node, and everything reflected more than once as the patch's mean.
PatchLight exitance_of_nodes(const Mesh& mesh, const Nodes& nodes, const PatchLight& direct_lx,
                             const PatchLight& mean_direct_lx, const PatchLight& exitance_lm_m2) {
  PatchLight result(direct_lx.rows(), direct_lx.cols());
  for (const auto& surface : mesh.surfaces) {
    const auto reflectance = static_cast<float>(surface.reflectance);
    for (int i = surface.begin; i < surface.end; ++i) {
      for (int node = i * nodes.per_patch; node < (i + 1) * nodes.per_patch; ++node) {
        result.row(node) = exitance_lm_m2.row(i) + reflectance * (direct_lx.row(node) - mean_direct_lx.row(i));
      }
    }
  }
  return result;
}

/// Receivers are handled in chunks, so that progress can be told in between.
Eigen::MatrixXd gathered_in_chunks(const Mesh& mesh, const Nodes& nodes, const PatchLight& node_exitance_lm_m2,
                                   const Visibility& visibility, const std::vector<Receiver>& receivers,
                                   const Progress& progress) {
  constexpr std::size_t k_chunk = 2048;
  Eigen::MatrixXd result(receivers.size(), node_exitance_lm_m2.cols());
  for (std::size_t begin = 0; begin < receivers.size(); begin += k_chunk) {
    const std::size_t end = std::min(begin + k_chunk, receivers.size());
    const std::vector<Receiver> chunk(receivers.begin() + begin, receivers.begin() + end);
    result.middleRows(begin, end - begin) = gathered(mesh, nodes, k_order, node_exitance_lm_m2, visibility, chunk);
    if (progress) progress(static_cast<double>(end) / receivers.size());
  }
  return result;
}

Eigen::MatrixXd indirect(const Scene& scene, const std::vector<DirectLight>& lights, const Visibility& visibility,
                         const std::vector<Receiver>& receivers, double patch_size_m, const Progress& progress) {
  const Mesh mesh = make_mesh(scene, patch_size_m);
  const Nodes nodes = gauss_nodes(mesh, k_order);
  const PatchLight direct_lx = direct_on_nodes(lights, visibility, mesh, nodes);
  const PatchLight mean_lx = mean_over_patches(mesh, nodes, direct_lx);
  if (progress) progress(0.2);
  ExchangeAreas areas = exchange_areas(mesh, visibility);
  if (progress) progress(0.5);
  const PatchLight exitance_lm_m2 = exitance(mesh, std::move(areas), mean_lx);
  if (progress) progress(0.6);
  return gathered_in_chunks(mesh, nodes, exitance_of_nodes(mesh, nodes, direct_lx, mean_lx, exitance_lm_m2), visibility,
                            receivers, part_of(progress, 0.6, 1));
}

Eigen::MatrixXd direct(const std::vector<DirectLight>& lights, const Visibility& visibility,
                       const std::vector<Receiver>& receivers) {
  Eigen::MatrixXd result(receivers.size(), lights.size());
  in_runs(static_cast<int>(receivers.size()), [&](int begin, int end) {
    Eigen::Matrix3Xd points_m(3, end - begin);
    Eigen::Matrix3Xd normals(3, end - begin);
    for (int i = begin; i < end; ++i) {
      points_m.col(i - begin) = receivers[i].position_m;
      normals.col(i - begin) = receivers[i].normal;
    }
    for (std::size_t k = 0; k < lights.size(); ++k) {
      result.col(static_cast<Eigen::Index>(k)).segment(begin, end - begin) =
          lights[k].illuminances(visibility, points_m, normals).matrix();
    }
  });
  return result;
}

}  // namespace

double usual_patch_size_m(const Scene& scene) {
  constexpr double k_usual_m = 0.35;
  constexpr double k_fewest = 400;
  constexpr double k_most = 2500;
  const double area_m2 = 2 * signed_area(scene.plan_m) + perimeter(scene.plan_m) * mean_ceiling_m(scene);
  return std::clamp(k_usual_m, std::sqrt(area_m2 / k_most), std::sqrt(area_m2 / k_fewest));
}

Response response(const Scene& scene, const std::vector<Receiver>& receivers, const Progress& progress) {
  return response(scene, receivers, usual_patch_size_m(scene), progress);
}

Response response(const Scene& scene, const std::vector<Receiver>& receivers, double patch_size_m,
                  const Progress& progress) {
  const Visibility visibility(scene);
  Response result;
  const Intensities intensities = intensities_of(scene);
  result.direct_lx = direct(direct_lights(scene, intensities), visibility, receivers);
  if (progress) progress(0.05);
  const auto lights = direct_lights(scene, intensities, k_surface_detail);
  result.indirect_lx = indirect(scene, lights, visibility, receivers, patch_size_m, part_of(progress, 0.05, 0.8));
  result.change_lx =
      result.indirect_lx - indirect(scene, lights, visibility, receivers, 2 * patch_size_m, part_of(progress, 0.8, 1));
  return result;
}

Field field_at(const Response& response, const Eigen::VectorXd& levels) {
  Field field;
  field.direct_lx = response.direct_lx * levels;
  field.total_lx = field.direct_lx + response.indirect_lx * levels;
  const Eigen::ArrayXd change = (response.change_lx * levels).cwiseAbs();
  const Eigen::ArrayXd total = field.total_lx.array();
  const Eigen::ArrayXd share = (total > 0).select(change / total, 0);
  // Where the change happens to vanish the error need not, and the two meshes share what does not depend on their size.
  constexpr double k_shared = 5e-4;
  const double usual_share = std::max(k_shared, std::sqrt(share.square().mean()));
  field.error_lx = change.max(usual_share * total).matrix();
  return field;
}

}  // namespace evenlit
