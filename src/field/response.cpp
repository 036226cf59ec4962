#include "evenlit/field/response.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

#include "cut_room.hpp"
#include "evenlit/base/parallel.hpp"
#include "evenlit/base/polygon.hpp"
#include "evenlit/field/direct.hpp"
#include "gather.hpp"
#include "lit_mesh.hpp"
#include "patch_sums.hpp"
#include "product.hpp"
#include "resampling.hpp"
#include "transposed.hpp"

namespace evenlit {
namespace {

/// Surfaces collect an opening's light with less detail than receivers: their light reaches a receiver
/// only after averaging over many points.
constexpr OpeningDetail k_surface_detail{.point_beyond = 10};

std::vector<DirectLight> direct_lights(const Scene& scene) {
  std::vector<std::shared_ptr<const LightSource>> sources;
  for (const auto& distribution : scene.distributions) {
    sources.push_back(std::make_shared<const LightSource>(distribution));
  }
  std::vector<DirectLight> lights;
  for (const auto& luminaire : scene.luminaires) lights.emplace_back(luminaire, sources[luminaire.distribution]);
  return lights;
}

/// Facets x luminaires, lx.
Eigen::MatrixXd direct_on(const Facets& facets, const std::vector<DirectLight>& lights, const Visibility& visibility) {
  constexpr int k_run = 256;
  const Figures figures =
      visibility.is_always_clear() ? Figures{} : visibility.figures_of(facets.points(), facets.size());
  Eigen::MatrixXd direct(facets.size(), lights.size());
  parallel_for((facets.size() + k_run - 1) / k_run, [&](int run) {
    const int begin = run * k_run;
    const int end = std::min(facets.size(), begin + k_run);
    Eigen::VectorXf lx(end - begin);
    for (std::size_t k = 0; k < lights.size(); ++k) {
      lights[k].illuminances(visibility, facets, figures, begin, end, lx.data());
      direct.col(static_cast<Eigen::Index>(k)).segment(begin, end - begin) = lx.cast<double>();
    }
  });
  return direct;
}

/// What stays the same however the room is cut.
struct Setting {
  const Scene& scene;
  const std::vector<Receiver>& receivers;
  Visibility visibility;
  std::vector<DirectLight> lights;
  std::vector<DirectLight> lights_on_surfaces;

  Setting(const Scene& the_scene, const std::vector<Receiver>& the_receivers)
      : scene(the_scene), receivers(the_receivers), visibility(scene), lights(direct_lights(scene)) {
    for (const auto& light : lights) lights_on_surfaces.push_back(light.with(k_surface_detail));
  }

  [[nodiscard]] Eigen::MatrixXd direct_lx() const {
    Facets facets;
    for (const auto& receiver : receivers) facets.add(receiver.position_m, receiver.normal);
    return direct_on(facets, lights, visibility);
  }

  /// The light of the room's surfaces.
  void add_indirect(const MeshDetail& detail, const Progress& progress, Response& response) const {
    if (lights.size() > receivers.size()) {
      add_for_many_luminaires(detail, progress, response);
    } else {
      add_for_many_receivers(detail, progress, response);
    }
  }

 private:
  /// Patch by patch first; then the second reflection is resolved within patches by gathering the first at all nodes;
  /// then receivers gather that.
  void add_for_many_receivers(const MeshDetail& detail, const Progress& progress, Response& response) const {
    const auto tell = [&](double done) {
      if (progress) progress(done);
    };
    auto [mesh, nodes, direct_lx] = lit_mesh(scene, lights_on_surfaces, visibility, detail);
    tell(0.2);
    const CutRoom room{std::move(mesh), visibility};
    tell(0.4);
    const PatchLight direct = reflected(room.mesh, direct_lx);
    const PatchLight direct_by_patch = means_over_patches(room.nodes, direct);
    const PatchLight by_patches = room.interreflection.all_of(direct_by_patch);
    const PatchLight first = direct + spread_over_nodes(room.nodes, by_patches - direct_by_patch);
    tell(0.5);
    const Resampling resampling(room.nodes, room.few_nodes);
    const Gathered on_nodes = gathered(room.factors(room.few_nodes, k_node_detail),
                                       lookout_of(room.few_nodes, room.patches), resampling.condensed(first));
    const PatchLight second = direct + reflected(room.mesh, resampling.refined(on_nodes.light_lx));
    // By as much as resolving the second reflection changed patches, all later ones change by patch.
    const PatchLight defect = means_over_patches(room.nodes, second) - by_patches;
    const PatchLight later = room.interreflection.all_of(defect) - defect;
    tell(0.7);
    const Eigen::Index cans = first.cols();
    PatchLight columns(first.rows(), 3 * cans);
    columns << first, second + spread_over_nodes(room.nodes, later), spread_over_nodes(room.nodes, by_patches);
    const Gathered on_receivers =
        gathered(room.factors(room.nodes, {}), lookout_of(receivers, visibility), columns, static_cast<int>(cans));
    tell(1);
    const Eigen::MatrixXd light_lx = on_receivers.light_lx.cast<double>();
    response.indirect_lx = light_lx.middleCols(cans, cans);
    response.second_change_lx = light_lx.middleCols(cans, cans) - light_lx.leftCols(cans);
    response.first_change_lx = light_lx.leftCols(cans) - light_lx.rightCols(cans);
    response.uncertain_lx = on_receivers.uncertain_lx.cast<double>();
    response.missed = on_receivers.missed.cast<double>().matrix();
    response.patches = room.mesh.size();
  }

  /// The same steps turned about: what receivers owe to each node first, then the luminaires' light on nodes, some
  /// luminaires at a time.
  void add_for_many_luminaires(const MeshDetail& detail, const Progress& progress, Response& response) const {
    constexpr int k_at_a_time = 64;
    const auto tell = [&](double done) {
      if (progress) progress(done);
    };
    const CutRoom room{make_mesh(scene, detail.patch_size_m), visibility};
    tell(0.2);
    const Transposed weights = transposed(room, lookout_of(receivers, visibility));
    tell(0.6);
    const int cans = static_cast<int>(lights.size());
    for (auto* table :
         {&response.indirect_lx, &response.first_change_lx, &response.second_change_lx, &response.uncertain_lx}) {
      table->setZero(std::ssize(receivers), cans);
    }
    parallel_for((cans + k_at_a_time - 1) / k_at_a_time, [&](int block) {
      const int begin = block * k_at_a_time;
      const int count = std::min(k_at_a_time, cans - begin);
      const std::vector<DirectLight> some(lights_on_surfaces.begin() + begin,
                                          lights_on_surfaces.begin() + begin + count);
      PatchLight light_lx = direct_at_nodes(room.mesh.patches, room.nodes, some, visibility);
      resolve(scene, room.mesh, room.nodes, some, visibility, detail.unevenness / 4, light_lx);
      const auto add = [&](const NodeWeights& of_nodes, Eigen::MatrixXd& table) {
        if (of_nodes.cols() == 0) return;
        PatchLight on_receivers = PatchLight::Zero(of_nodes.rows(), count);
        add_product(of_nodes, light_lx, on_receivers);
        table.middleCols(begin, count) = on_receivers.cast<double>();
      };
      add(weights.indirect, response.indirect_lx);
      add(weights.first_change, response.first_change_lx);
      add(weights.second_change, response.second_change_lx);
      add(weights.uncertain, response.uncertain_lx);
    });
    tell(1);
    response.missed = weights.missed.cast<double>().matrix();
    response.patches = room.mesh.size();
  }
};

/// The stated error over the wanted, at the receiver that nineteen in twenty are better than, all luminaires full.
double excess(const Response& response, const Accuracy& accuracy) {
  const Field field = field_at(response, Eigen::VectorXd::Ones(response.direct_lx.cols()));
  const Eigen::ArrayXd wanted = (accuracy.share * field.total_lx.array()).max(accuracy.floor_lx);
  std::vector<double> ratios;
  for (Eigen::Index i = 0; i < wanted.size(); ++i) ratios.push_back(field.error_lx[i] / wanted[i]);
  if (ratios.empty()) return 0;
  const auto place = ratios.begin() + static_cast<std::ptrdiff_t>(0.95 * static_cast<double>(ratios.size() - 1));
  std::ranges::nth_element(ratios, place);
  return *place;
}

/// Finer by what errors that shrink with the square of the patch size ask for, but not by more than half at a time.
MeshDetail finer(MeshDetail detail, double excess) {
  const double step = std::clamp(std::sqrt(0.8 / excess), 0.5, 0.8);
  detail.patch_size_m *= step;
  detail.unevenness *= step * step * step;
  return detail;
}

}  // namespace

MeshDetail coarse_mesh(const Scene& scene) {
  constexpr double k_usual_m = 0.7;
  constexpr double k_fewest = 100;
  constexpr double k_most = 900;
  double area_m2 = 0;
  for (const Surface& surface : scene.surfaces) area_m2 += vector_area(surface.corners_m).norm();
  return {.patch_size_m = std::clamp(k_usual_m, std::sqrt(area_m2 / k_most), std::sqrt(area_m2 / k_fewest))};
}

Response response(const Scene& scene, const std::vector<Receiver>& receivers, const MeshDetail& detail,
                  const Progress& progress) {
  const Setting setting(scene, receivers);
  Response result;
  result.direct_lx = setting.direct_lx();
  setting.add_indirect(detail, progress, result);
  return result;
}

Response response(const Scene& scene, const std::vector<Receiver>& receivers, const Accuracy& accuracy,
                  const Progress& progress) {
  constexpr int k_most_rounds = 4;
  const Setting setting(scene, receivers);
  Response result;
  result.direct_lx = setting.direct_lx();
  MeshDetail detail = coarse_mesh(scene);
  double done = 0;
  for (int round = 0;; ++round) {
    const double left = 1 - done;
    setting.add_indirect(detail, part_of(progress, done, done + left / 2), result);
    done += left / 2;
    const double too_large_by = excess(result, accuracy);
    if (too_large_by <= 1 || round + 1 == k_most_rounds) break;
    const MeshDetail next = finer(detail, too_large_by);
    const double growth = detail.patch_size_m / next.patch_size_m;
    if (result.patches * growth * growth > detail.most_patches) break;
    detail = next;
  }
  if (progress) progress(1);
  return result;
}

Response rows_of(const Response& response, Eigen::Index first, Eigen::Index count) {
  return {.direct_lx = response.direct_lx.middleRows(first, count),
          .indirect_lx = response.indirect_lx.middleRows(first, count),
          .first_change_lx = response.first_change_lx.middleRows(first, count),
          .second_change_lx = response.second_change_lx.middleRows(first, count),
          .uncertain_lx = response.uncertain_lx.middleRows(first, count),
          .missed = response.missed.segment(first, count),
          .patches = response.patches};
}

Response columns_of(const Response& response, const std::vector<int>& luminaires) {
  return {.direct_lx = response.direct_lx(Eigen::all, luminaires),
          .indirect_lx = response.indirect_lx(Eigen::all, luminaires),
          .first_change_lx = response.first_change_lx(Eigen::all, luminaires),
          .second_change_lx = response.second_change_lx(Eigen::all, luminaires),
          .uncertain_lx = response.uncertain_lx(Eigen::all, luminaires),
          .missed = response.missed,
          .patches = response.patches};
}

Field field_at(const Response& response, const Eigen::VectorXd& levels) {
  // Against rooms of every kind cut ever finer, what is not resolved is a half, or less, of what resolving the second
  // reflection changed, and a quarter of what resolving the first changed.
  constexpr double k_of_second = 0.5;
  constexpr double k_of_first = 0.25;
  // Where the changes happen to vanish the error need not.
  constexpr double k_shared = 3e-4;
  Field field;
  field.direct_lx = response.direct_lx * levels;
  field.total_lx = field.direct_lx + response.indirect_lx * levels;
  const Eigen::ArrayXd change = k_of_second * (response.second_change_lx * levels).array().abs() +
                                k_of_first * (response.first_change_lx * levels).array().abs();
  const Eigen::ArrayXd total = field.total_lx.array();
  const Eigen::ArrayXd missed = response.missed.array() * (total - field.direct_lx.array());
  const double light = total.matrix().norm();
  const double usual_share = light > 0 ? std::max(k_shared, change.matrix().norm() / light) : 0;
  field.error_lx = (change.max(usual_share * total).max((response.uncertain_lx * levels).array()) + missed).matrix();
  return field;
}

}  // namespace evenlit
