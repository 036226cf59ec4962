#include "solver.hpp"

#include <algorithm>
#include <memory>

#include "cut_room.hpp"
#include "evenlit/base/parallel.hpp"
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

/// Half as fine as receivers see openings: what that changes tells of the error that is left.
constexpr OpeningDetail k_less_detail{.point_beyond = 12.5, .penumbra = 6};

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
  constexpr int k_facets_together = 256;
  constexpr int k_lights_together = 16;
  const int count = static_cast<int>(lights.size());
  const int runs = (facets.size() + k_facets_together - 1) / k_facets_together;
  const int blocks = (count + k_lights_together - 1) / k_lights_together;
  const Figures figures =
      visibility.is_always_clear() ? Figures{} : visibility.figures_of(facets.points(), facets.size());
  Eigen::MatrixXd direct(facets.size(), count);
  parallel_for(runs * blocks, [&](int task) {
    const int begin = task % runs * k_facets_together;
    const int end = std::min(facets.size(), begin + k_facets_together);
    const int first = task / runs * k_lights_together;
    Eigen::VectorXf lx(end - begin);
    for (int k = first; k < std::min(count, first + k_lights_together); ++k) {
      lights[k].illuminances(visibility, facets, figures, begin, end, lx.data());
      direct.col(k).segment(begin, end - begin) = lx.cast<double>();
    }
  });
  return direct;
}

}  // namespace

Solver::Solver(const Scene& scene, const std::vector<Receiver>& receivers)
    : scene_(scene), receivers_(receivers), visibility_(scene), lights_(direct_lights(scene)) {
  for (const auto& light : lights_) lights_on_surfaces_.push_back(light.with(k_surface_detail));
}

void Solver::add_direct(Response& response) const {
  Facets facets;
  for (const auto& receiver : receivers_) facets.add(receiver.position_m, receiver.normal);
  std::vector<DirectLight> less_divided;
  for (const auto& light : lights_) less_divided.push_back(light.with(k_less_detail));
  response.direct_lx = direct_on(facets, lights_, visibility_);
  response.direct_change_lx = response.direct_lx - direct_on(facets, less_divided, visibility_);
}

void Solver::add_indirect(const MeshDetail& detail, const Progress& progress, Response& response) const {
  if (lights_.size() > receivers_.size()) {
    add_for_many_luminaires(detail, progress, response);
  } else {
    add_for_many_receivers(detail, progress, response);
  }
}

void Solver::add_for_many_receivers(const MeshDetail& detail, const Progress& progress, Response& response) const {
  const auto tell = [&](double done) {
    if (progress) progress(done);
  };
  auto [mesh, direct_lx] = lit_mesh(scene_, lights_on_surfaces_, visibility_, detail);
  tell(0.2);
  const CutRoom room{std::move(mesh), visibility_};
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
  columns << spread_over_nodes(room.nodes, by_patches), first, second + spread_over_nodes(room.nodes, later);
  const Gathered on_receivers = gathered(room.factors(room.nodes, receiver_detail(detail.lines_of_sight)),
                                         lookout_of(receivers_, visibility_), columns, static_cast<int>(cans));
  tell(1);
  const Eigen::MatrixXd light_lx = on_receivers.light_lx.cast<double>();
  response.indirect_lx = light_lx.rightCols(cans);
  response.second_change_lx = light_lx.rightCols(cans) - light_lx.middleCols(cans, cans);
  response.first_change_lx = light_lx.middleCols(cans, cans) - light_lx.leftCols(cans);
  response.uncertain_lx = on_receivers.uncertain_lx.cast<double>();
  response.missed = on_receivers.missed.cast<double>().matrix();
  response.patches = room.mesh.size();
}

void Solver::add_for_many_luminaires(const MeshDetail& detail, const Progress& progress, Response& response) const {
  constexpr std::size_t k_receivers_at_a_time = 512;  // some tens of MB for each of a handful of matrices
  const CutRoom room{make_mesh(scene_, detail.patch_size_m), visibility_};
  for (auto* table :
       {&response.indirect_lx, &response.first_change_lx, &response.second_change_lx, &response.uncertain_lx}) {
    table->setZero(std::ssize(receivers_), std::ssize(lights_));
  }
  response.missed.setZero(std::ssize(receivers_));
  response.patches = room.mesh.size();
  for (std::size_t first = 0; first < receivers_.size(); first += k_receivers_at_a_time) {
    const std::size_t last = std::min(receivers_.size(), first + k_receivers_at_a_time);
    const std::vector<Receiver> some(receivers_.begin() + first, receivers_.begin() + last);
    const Transposed weights = transposed(room, lookout_of(some, visibility_), receiver_detail(detail.lines_of_sight));
    add_light(room, detail, weights, static_cast<Eigen::Index>(first), response);
    if (progress) progress(static_cast<double>(last) / static_cast<double>(receivers_.size()));
  }
}

void Solver::add_light(const CutRoom& room, const MeshDetail& detail, const Transposed& weights, Eigen::Index first,
                       Response& response) const {
  constexpr int k_luminaires_at_a_time = 64;
  const int cans = static_cast<int>(lights_.size());
  response.missed.segment(first, weights.missed.size()) = weights.missed.cast<double>().matrix();
  parallel_for((cans + k_luminaires_at_a_time - 1) / k_luminaires_at_a_time, [&](int block) {
    const int begin = block * k_luminaires_at_a_time;
    const int count = std::min(k_luminaires_at_a_time, cans - begin);
    const std::vector<DirectLight> some(lights_on_surfaces_.begin() + begin,
                                        lights_on_surfaces_.begin() + begin + count);
    PatchLight light_lx = direct_at_nodes(room.mesh.patches, room.nodes, some, visibility_);
    resolve(scene_, room.mesh, room.nodes, some, visibility_, k_resolved * detail.unevenness, light_lx);
    const PatchLight of_patches_lx = means_over_patches(room.nodes, light_lx);
    const auto put = [&](const NodeWeights& of_light, const PatchLight& lx, Eigen::MatrixXd& table) {
      if (of_light.cols() == 0) return;
      PatchLight on_receivers = PatchLight::Zero(of_light.rows(), count);
      add_product(of_light, lx, on_receivers);
      table.block(first, begin, of_light.rows(), count) = on_receivers.cast<double>();
    };
    put(weights.indirect, light_lx, response.indirect_lx);
    put(weights.first_change, light_lx, response.first_change_lx);
    put(weights.by_patches, of_patches_lx, response.second_change_lx);
    put(weights.uncertain, of_patches_lx, response.uncertain_lx);
    auto second_change = response.second_change_lx.block(first, begin, weights.indirect.rows(), count);
    second_change = response.indirect_lx.block(first, begin, second_change.rows(), count) -
                    response.first_change_lx.block(first, begin, second_change.rows(), count) - second_change;
  });
}

}  // namespace evenlit
