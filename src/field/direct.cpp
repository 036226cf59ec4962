#include "evenlit/field/direct.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "gauss.hpp"

namespace evenlit {
namespace {

using Eigen::Vector3d;

constexpr int k_finest = 12;

double largest_size(const Opening& opening) {
  return opening.shape == Opening::Shape::point ? 0 : std::max(opening.width_m, opening.length_m);
}

}  // namespace

DirectLight::DirectLight(const Luminaire& luminaire, const IntensityDistribution& distribution, OpeningDetail detail)
    : luminaire_(luminaire),
      intensity_(distribution),
      size_m_(largest_size(luminaire.opening)),
      point_beyond_m_(detail.point_beyond * size_m_) {
  if (size_m_ == 0) return;
  const bool round = luminaire.opening.shape == Opening::Shape::disc;
  for (int fineness = 1; fineness <= k_finest; ++fineness) {
    pieces_.push_back(round ? pieces_of_disc(fineness) : pieces_of_rectangle(fineness));
  }
}

double DirectLight::illuminance(const PlanVisibility& visibility, const Vector3d& point, const Vector3d& normal) const {
  const double distance_m = (point - luminaire_.position_m).norm();
  if (distance_m >= point_beyond_m_) return luminaire_.output * from(luminaire_.position_m, visibility, point, normal);

  const double fineness = std::ceil(3 * size_m_ / std::max(distance_m, size_m_ / k_finest));
  double sum = 0;
  for (const auto& piece : pieces_[std::min(static_cast<int>(fineness), k_finest) - 1]) {
    sum += piece.share * from(piece.position_m, visibility, point, normal);
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

/// Gauss in the square of the radius, equal steps round the circle.
std::vector<DirectLight::Piece> DirectLight::pieces_of_disc(int fineness) const {
  const auto& rule = gauss_rule(fineness);
  const int around = 6 * fineness;
  const Eigen::Matrix3d axes = luminaire_.room_from_luminaire * (luminaire_.opening.width_m / 2);
  std::vector<Piece> pieces;
  for (int ring = 0; ring < fineness; ++ring) {
    const double radius = std::sqrt(rule.nodes[ring]);
    for (int step = 0; step < around; ++step) {
      const double angle = 2 * std::numbers::pi * (step + 0.5) / around;
      const Vector3d offset = axes * Vector3d(radius * std::cos(angle), radius * std::sin(angle), 0);
      pieces.push_back({luminaire_.position_m + offset, rule.weights[ring] / around});
    }
  }
  return pieces;
}

/// A tensor Gauss rule.
std::vector<DirectLight::Piece> DirectLight::pieces_of_rectangle(int fineness) const {
  const auto& rule = gauss_rule(fineness + 2);
  const Vector3d along_length = luminaire_.room_from_luminaire.col(0) * luminaire_.opening.length_m;
  const Vector3d along_width = luminaire_.room_from_luminaire.col(1) * luminaire_.opening.width_m;
  std::vector<Piece> pieces;
  for (std::size_t row = 0; row < rule.nodes.size(); ++row) {
    for (std::size_t column = 0; column < rule.nodes.size(); ++column) {
      const Vector3d offset = (rule.nodes[column] - 0.5) * along_length + (rule.nodes[row] - 0.5) * along_width;
      pieces.push_back({luminaire_.position_m + offset, rule.weights[row] * rule.weights[column]});
    }
  }
  return pieces;
}

}  // namespace evenlit
