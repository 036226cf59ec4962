#include "evenlit/field/direct.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "gauss.hpp"

namespace evenlit {
namespace {

using Eigen::Vector3d;

constexpr int k_finest = 12;

/// A piece of an opening that reaches from -1 to 1 along both of its axes.
struct Piece {
  Eigen::Vector2d place;
  double share;  ///< of the opening's light
};

using Pieces = std::vector<Piece>;

/// Gauss in the square of the radius, equal steps round the circle.
Pieces pieces_of_disc(int fineness) {
  const auto& rule = gauss_rule(fineness);
  const int around = 6 * fineness;
  Pieces pieces;
  for (int ring = 0; ring < fineness; ++ring) {
    const double radius = std::sqrt(rule.nodes[ring]);
    for (int step = 0; step < around; ++step) {
      const double angle = 2 * std::numbers::pi * (step + 0.5) / around;
      pieces.push_back({radius * Eigen::Vector2d(std::cos(angle), std::sin(angle)), rule.weights[ring] / around});
    }
  }
  return pieces;
}

/// A tensor Gauss rule.
Pieces pieces_of_rectangle(int fineness) {
  const auto& rule = gauss_rule(fineness + 2);
  const int order = fineness + 2;
  Pieces pieces;
  for (int row = 0; row < order; ++row) {
    for (int column = 0; column < order; ++column) {
      pieces.push_back(
          {{2 * rule.nodes[column] - 1, 2 * rule.nodes[row] - 1}, rule.weights[row] * rule.weights[column]});
    }
  }
  return pieces;
}

/// @param fineness 1...k_finest
const Pieces& pieces_of(Opening::Shape shape, int fineness) {
  static const auto k_pieces = [] {
    std::array<std::array<Pieces, 2>, k_finest + 1> all;
    for (int i = 1; i <= k_finest; ++i) all[i] = {pieces_of_disc(i), pieces_of_rectangle(i)};
    return all;
  }();
  return k_pieces[fineness][shape == Opening::Shape::disc ? 0 : 1];
}

double largest_size(const Opening& opening) {
  return opening.shape == Opening::Shape::point ? 0 : std::max(opening.width_m, opening.length_m);
}

Eigen::Matrix<double, 3, 2> half_axes(const Luminaire& luminaire) {
  const Opening& opening = luminaire.opening;
  const double length_m = opening.shape == Opening::Shape::disc ? opening.width_m : opening.length_m;
  return luminaire.room_from_luminaire.leftCols<2>() * Eigen::Vector2d(length_m, opening.width_m).asDiagonal() / 2;
}

}  // namespace

DirectLight::DirectLight(const Luminaire& luminaire, const IntensityDistribution& distribution, OpeningDetail detail)
    : luminaire_(luminaire),
      intensity_(distribution),
      size_m_(largest_size(luminaire.opening)),
      point_beyond_m_(detail.point_beyond * size_m_),
      half_axes_m_(half_axes(luminaire)) {}

double DirectLight::illuminance(const PlanVisibility& visibility, const Vector3d& point, const Vector3d& normal) const {
  const double distance_m = (point - luminaire_.position_m).norm();
  if (distance_m >= point_beyond_m_) return luminaire_.output * from(luminaire_.position_m, visibility, point, normal);

  const double fineness = std::ceil(3 * size_m_ / std::max(distance_m, size_m_ / k_finest));
  double sum = 0;
  for (const auto& piece : pieces_of(luminaire_.opening.shape, std::min(static_cast<int>(fineness), k_finest))) {
    sum += piece.share * from(luminaire_.position_m + half_axes_m_ * piece.place, visibility, point, normal);
  }
  return luminaire_.output * sum;
}

/// One piece of an opening as a point: I cos / d^2.
double DirectLight::from(const Vector3d& source, const PlanVisibility& visibility, const Vector3d& point,
                         const Vector3d& normal) const {
  const Vector3d ray = point - source;
  const double facing = -normal.dot(ray);
  const double d2 = ray.squaredNorm();
  if (facing <= 0 || d2 == 0) return 0;
  const double d = std::sqrt(d2);
  const double candela = intensity_.toward(luminaire_.room_from_luminaire.transpose() * (ray / d));
  if (candela == 0 || !visibility.is_clear(source.head<2>(), point.head<2>())) return 0;
  return candela * facing / (d2 * d);
}

}  // namespace evenlit
