#include "evenlit/field/response.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/base/polygon.hpp"
#include "evenlit/field/rough_mesh.hpp"
#include "solver.hpp"

namespace evenlit {
namespace {

/// The part of the stated error that comes from dividing openings. In twice as many pieces each way, the edge of a
/// shadow falls between other pieces; what is smooth gains more.
Eigen::VectorXd direct_error_lx(const Response& response, const Eigen::VectorXd& levels) {
  constexpr double k_of_change = 0.5;
  return k_of_change * (response.direct_change_lx * levels).cwiseAbs();
}

/// What cutting finer can mend of the stated error over the wanted, at the receiver that nineteen in twenty are better
/// than, all luminaires full.
double excess(const Response& response, const Accuracy& accuracy) {
  const Eigen::VectorXd levels = Eigen::VectorXd::Ones(response.direct_lx.cols());
  const Field field = field_at(response, levels);
  const Eigen::VectorXd error_lx = field.error_lx - direct_error_lx(response, levels);
  const Eigen::ArrayXd wanted = (accuracy.share * field.total_lx.array()).max(accuracy.floor_lx);
  std::vector<double> ratios;
  for (Eigen::Index i = 0; i < wanted.size(); ++i) ratios.push_back(error_lx[i] / wanted[i]);
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

double area_of_surfaces_m2(const Scene& scene) {
  double area_m2 = 0;
  for (const Surface& surface : scene.surfaces) area_m2 += vector_area(surface.corners_m).norm();
  return area_m2;
}

}  // namespace

MeshDetail coarse_mesh(const Scene& scene) {
  constexpr double k_usual_m = 0.7;
  constexpr double k_fewest = 100;
  constexpr double k_most = 900;
  const double area_m2 = area_of_surfaces_m2(scene);
  return {.patch_size_m = std::clamp(k_usual_m, std::sqrt(area_m2 / k_most), std::sqrt(area_m2 / k_fewest))};
}

MeshDetail rough_mesh(const Scene& scene) {
  constexpr double k_patches = 60;
  constexpr double k_unevenness = 0.1;
  return {.patch_size_m = std::sqrt(area_of_surfaces_m2(scene) / k_patches),
          .unevenness = k_unevenness,
          .lines_of_sight = 1};
}

Response response(const Scene& scene, const std::vector<Receiver>& receivers, const MeshDetail& detail,
                  const Progress& progress) {
  const Solver solver(scene, receivers);
  Response result;
  solver.add_direct(result);
  solver.add_indirect(detail, progress, result);
  return result;
}

Response response(const Scene& scene, const std::vector<Receiver>& receivers, const Accuracy& accuracy,
                  const Progress& progress) {
  constexpr int k_most_rounds = 4;
  const Solver solver(scene, receivers);
  Response result;
  solver.add_direct(result);
  MeshDetail detail = coarse_mesh(scene);
  double done = 0;
  for (int round = 0;; ++round) {
    const double left = 1 - done;
    solver.add_indirect(detail, part_of(progress, done, done + left / 2), result);
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
          .direct_change_lx = response.direct_change_lx.middleRows(first, count),
          .first_change_lx = response.first_change_lx.middleRows(first, count),
          .second_change_lx = response.second_change_lx.middleRows(first, count),
          .uncertain_lx = response.uncertain_lx.middleRows(first, count),
          .missed = response.missed.segment(first, count),
          .patches = response.patches};
}

Response columns_of(const Response& response, const std::vector<int>& luminaires) {
  return {.direct_lx = response.direct_lx(Eigen::all, luminaires),
          .indirect_lx = response.indirect_lx(Eigen::all, luminaires),
          .direct_change_lx = response.direct_change_lx(Eigen::all, luminaires),
          .first_change_lx = response.first_change_lx(Eigen::all, luminaires),
          .second_change_lx = response.second_change_lx(Eigen::all, luminaires),
          .uncertain_lx = response.uncertain_lx(Eigen::all, luminaires),
          .missed = response.missed,
          .patches = response.patches};
}

Field field_at(const Response& response, const Eigen::VectorXd& levels) {
  // Against rooms of every kind cut ever finer, what is not resolved is three quarters, or less, of what resolving the
  // second reflection changed, and a quarter of what resolving the first changed.
  constexpr double k_of_second = 0.75;
  constexpr double k_of_first = 0.25;
  // Against the same rooms, what lines of sight leave open where something stands between.
  constexpr double k_of_uncertain = 1.2;
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
  field.error_lx =
      (change.max(usual_share * total).max(k_of_uncertain * (response.uncertain_lx * levels).array()) + missed)
          .matrix() +
      direct_error_lx(response, levels);
  return field;
}

}  // namespace evenlit
