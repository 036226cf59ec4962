#pragma once

#include <Eigen/Core>

namespace evenlit {

using RowMajorRef =
    Eigen::Ref<const Eigen::Matrix<float, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>, 0, Eigen::OuterStride<>>;
using RowMajorTarget =
    Eigen::Ref<Eigen::Matrix<float, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>, 0, Eigen::OuterStride<>>;

/// target += weights x columns, on one thread. Eigen's own product is built once, for the oldest processor that the
/// program may meet; this is built for newer ones too. All give the same result to the last bit.
///
/// @param weights m x k
/// @param columns k x n
/// @param target  m x n
void add_product(const RowMajorRef& weights, const RowMajorRef& columns, RowMajorTarget target);

}  // namespace evenlit
