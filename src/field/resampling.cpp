#include "resampling.hpp"

#include "gauss.hpp"

namespace evenlit {
namespace {

/// Each patch's rows multiplied by one matrix.
PatchLight patch_by_patch(const Eigen::MatrixXf& matrix, const PatchLight& rows) {
  const Eigen::Index patches = rows.rows() / matrix.cols();
  PatchLight result(patches * matrix.rows(), rows.cols());
  for (Eigen::Index i = 0; i < patches; ++i) {
    result.middleRows(i * matrix.rows(), matrix.rows()).noalias() =
        matrix.lazyProduct(rows.middleRows(i * matrix.cols(), matrix.cols()));
  }
  return result;
}

Eigen::VectorXf areas_of(const Nodes& nodes) {
  return Eigen::Map<const Eigen::VectorXf>(nodes.area_m2.data(), nodes.size());
}

}  // namespace

Resampling::Resampling(const Nodes& many, const Nodes& few)
    : many_from_few_(many.per_patch, few.per_patch), many_area_m2_(areas_of(many)), few_area_m2_(areas_of(few)) {
  const int order = order_of(many);
  const int few_order = order_of(few);
  const auto& points = gauss_rule(order).nodes;
  for (int node = 0; node < many.per_patch; ++node) {
    const auto values = lagrange_values(few_order, points[node % order], points[node / order]);
    for (int from = 0; from < few.per_patch; ++from) many_from_few_(node, from) = static_cast<float>(values[from]);
  }
}

PatchLight Resampling::refined(const PatchLight& at_few) const { return patch_by_patch(many_from_few_, at_few); }

PatchLight Resampling::weights_of_few(const PatchLight& of_many) const {
  return patch_by_patch(many_from_few_.transpose(), of_many);
}

PatchLight Resampling::condensed(const PatchLight& at_many) const {
  const PatchLight lumens = many_area_m2_.asDiagonal() * at_many;
  return few_area_m2_.cwiseInverse().asDiagonal() * weights_of_few(lumens);
}

PatchLight Resampling::weights_of_many(const PatchLight& of_few) const {
  const PatchLight per_lumen = few_area_m2_.cwiseInverse().asDiagonal() * of_few;
  return many_area_m2_.asDiagonal() * refined(per_lumen);
}

}  // namespace evenlit
