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
constexpr OpeningDetail k_surface_detail{.point_beyond = 10, .penumbra = 2};

constexpr GatherDetail k_node_detail{.near = 1.5, .near_lines = 2, .far_lines = 1};

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

/// Facets x luminaires, lx.
PatchLight direct_on(const Facets& facets, const std::vector<DirectLight>& lights, const Visibility& visibility) {
  const Figures figures =
      visibility.is_always_clear() ? Figures{} : visibility.figures_of(facets.points(), facets.size());
  PatchLight direct(facets.size(), lights.size());
  in_runs(facets.size(), [&](int begin, int end) {
    Eigen::ArrayXf lx(end - begin);
    for (std::size_t k = 0; k < lights.size(); ++k) {
      lights[k].illuminances(visibility, facets, figures, begin, end, lx.data());
      direct.col(static_cast<Eigen::Index>(k)).segment(begin, end - begin) = lx.matrix();
    }
  });
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
PatchLight first_resolved(const Mesh& mesh, const Nodes& nodes, const PatchLight& direct_lx,
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

/// rho x all light at each node.
PatchLight reflected(const Mesh& mesh, const Nodes& nodes, const PatchLight& light_lx) {
  PatchLight result(light_lx.rows(), light_lx.cols());
  for (const auto& surface : mesh.surfaces) {
    const int begin = surface.begin * nodes.per_patch;
    const int count = (surface.end - surface.begin) * nodes.per_patch;
    result.middleRows(begin, count) = static_cast<float>(surface.reflectance) * light_lx.middleRows(begin, count);
  }
  return result;
}

struct Indirect {
  Eigen::MatrixXd light_lx;   ///< receivers x luminaires
  Eigen::MatrixXd change_lx;  ///< what resolving the second reflection changed
};

Indirect indirect(const Scene& scene, const std::vector<DirectLight>& lights, const Visibility& visibility,
                  const std::vector<Receiver>& receivers, double patch_size_m, const Progress& progress) {
  const auto tell = [&](double done) {
    if (progress) progress(done);
  };
  const Mesh mesh = make_mesh(scene, patch_size_m);
  const Nodes nodes = gauss_nodes(mesh, k_order);
  const PatchLight direct_lx = direct_on(nodes, lights, visibility);
  const PatchLight mean_lx = mean_over_patches(mesh, nodes, direct_lx);
  tell(0.1);
  ExchangeAreas areas = exchange_areas(mesh, visibility);
  tell(0.3);
  const PatchLight exitance_lm_m2 = exitance(mesh, std::move(areas), mean_lx);
  tell(0.4);
  const PatchLight first = first_resolved(mesh, nodes, direct_lx, mean_lx, exitance_lm_m2);
  const Gathered on_nodes =
      gathered(mesh, nodes, k_order, first, visibility, lookout_of(mesh, nodes, visibility), k_node_detail);
  tell(0.7);
  const Eigen::Index cans = first.cols();
  PatchLight both(first.rows(), 2 * cans);
  both << reflected(mesh, nodes, direct_lx + on_nodes.light_lx), first;
  const Gathered on_receivers = gathered(mesh, nodes, k_order, both, visibility, lookout_of(receivers, visibility), {});
  tell(1);
  const Eigen::MatrixXd light_lx = on_receivers.light_lx.cast<double>();
  return {light_lx.leftCols(cans), light_lx.leftCols(cans) - light_lx.rightCols(cans)};
}

}  // namespace

double usual_patch_size_m(const Scene& scene) {
  constexpr double k_usual_m = 0.35;
  constexpr double k_fewest = 400;
  constexpr double k_most = 2500;
  const double area_m2 = 2 * signed_area(scene.plan_m) + perimeter(scene.plan_m) * scene.ceiling_m;
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
  Facets facets;
  for (const auto& receiver : receivers) facets.add(receiver.position_m, receiver.normal);
  result.direct_lx = direct_on(facets, direct_lights(scene, intensities), visibility).cast<double>();
  if (progress) progress(0.05);
  const auto lights = direct_lights(scene, intensities, k_surface_detail);
  Indirect by_surfaces = indirect(scene, lights, visibility, receivers, patch_size_m, part_of(progress, 0.05, 1));
  result.indirect_lx = std::move(by_surfaces.light_lx);
  result.change_lx = std::move(by_surfaces.change_lx);
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
