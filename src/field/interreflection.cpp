#include "interreflection.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/base/parallel.hpp"
#include "product.hpp"

namespace evenlit {
namespace {

using Row = Eigen::Array<double, 1, Eigen::Dynamic>;

PatchLight product(const ExchangeAreas& matrix, const PatchLight& columns) {
  constexpr int k_rows_a_block = 96;
  PatchLight result = PatchLight::Zero(matrix.rows(), columns.cols());
  const int rows = static_cast<int>(matrix.rows());
  parallel_for((rows + k_rows_a_block - 1) / k_rows_a_block, [&](int block) {
    const int begin = block * k_rows_a_block;
    const int count = std::min(k_rows_a_block, rows - begin);
    add_product(matrix.middleRows(begin, count), columns, result.middleRows(begin, count));
  });
  return result;
}

Row dot(const PatchLight& a, const PatchLight& b) {
  Row sums = Row::Zero(a.cols());
  for (Eigen::Index i = 0; i < a.rows(); ++i) sums += a.row(i).array().cast<double>() * b.row(i).array().cast<double>();
  return sums;
}

/// a / b, and 0 where a column has come to rest.
Row quotient(const Row& a, const Row& b) { return (b > 0).select(a / b, 0); }

void add_scaled(PatchLight& to, const Row& factors, const PatchLight& what) {
  const Eigen::Array<float, 1, Eigen::Dynamic> f = factors.cast<float>();
  to.array() += what.array().rowwise() * f;
}

/// Solves (I - K) z = right, K symmetric with all eigenvalues inside (-1, 1): conjugate gradients on every column
/// (Hestenes and Stiefel, 1952).
PatchLight solve(const ExchangeAreas& k, const PatchLight& right) {
  constexpr int k_most_steps = 500;
  constexpr double k_residual = 1e-6;
  PatchLight z = PatchLight::Zero(right.rows(), right.cols());
  PatchLight residual = right;
  PatchLight direction = right;
  Row size = dot(residual, residual);
  const Row enough = size * (k_residual * k_residual);
  for (int step = 0; step < k_most_steps && (size > enough).any(); ++step) {
    const PatchLight image = direction - product(k, direction);
    const Row along = (size > enough).select(quotient(size, dot(direction, image)), 0);
    add_scaled(z, along, direction);
    add_scaled(residual, -along, image);
    const Row size_now = dot(residual, residual);
    const Row turn = quotient(size_now, size);
    direction.array().rowwise() *= turn.cast<float>();
    direction += residual;
    size = size_now;
  }
  return z;
}

}  // namespace

Interreflection::Interreflection(const Mesh& mesh, ExchangeAreas areas)
    : coupling_(std::move(areas)), scale_(mesh.size()) {
  // With M = sqrt(rho / A) z the balance M = m + rho F M reads (I - K) z = sqrt(A / rho) m, where
  // K = sqrt(rho / A) S sqrt(rho / A) is symmetric.
  for (const auto& surface : mesh.surfaces) {
    for (int i = surface.begin; i < surface.end; ++i) {
      scale_[i] = static_cast<float>(std::sqrt(surface.reflectance / mesh.patches[i].area_m2));
    }
  }
  parallel_for(mesh.size(),
               [&](int i) { coupling_.row(i) = scale_[i] * coupling_.row(i).array() * scale_.transpose(); });
}

PatchLight Interreflection::all_of(const PatchLight& first_lm_m2) const {
  const Eigen::ArrayXf unscale = (scale_ > 0).select(1 / scale_, 0);
  const PatchLight z = solve(coupling_, (first_lm_m2.array().colwise() * unscale).matrix());
  return (z.array().colwise() * scale_).matrix();
}

PatchLight Interreflection::weights_of_first(const PatchLight& weights) const {
  const Eigen::ArrayXf unscale = (scale_ > 0).select(1 / scale_, 0);
  const PatchLight z = solve(coupling_, (weights.array().colwise() * scale_).matrix());
  return (z.array().colwise() * unscale).matrix();
}

}  // namespace evenlit
