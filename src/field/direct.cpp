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

constexpr std::size_t k_full = 512;  ///< rays that are looked up together

}  // namespace

/// Rays from pieces of the opening to facets, collected until there are enough for the lookup to be quick.
class DirectLight::Rays {
 public:
  Rays(const DirectLight& light, const Visibility& visibility, Eigen::ArrayXd& lux)
      : light_(light), visibility_(visibility), lux_(lux) {
    directions_.resize(k_full);
    candela_.resize(k_full);
    rays_.reserve(k_full);
  }

  /// @param share of the opening's light that leaves from `source`
  void add(Eigen::Index facet, double share, const Vector3d& source, const Vector3d& point, const Vector3d& normal) {
    const Vector3d ray = point - source;
    const double facing = -normal.dot(ray);
    const double d2 = ray.squaredNorm();
    if (facing <= 0 || d2 == 0) return;
    directions_.set(rays_.size(), light_.table_from_room_ * ray);
    rays_.push_back({facet, share * facing / (d2 * std::sqrt(d2)), source, point});
    if (rays_.size() == k_full) finish();
  }

  /// Adds the light of all rays so far: I cos / d^2.
  void finish() {
    light_.intensity_->toward(directions_, rays_.size(), candela_.data());
    if (!visibility_.is_always_clear()) take_hidden_off();
    for (std::size_t i = 0; i < rays_.size(); ++i) lux_[rays_[i].facet] += candela_[i] * rays_[i].lux_per_candela;
    rays_.clear();
  }

 private:
  struct Ray {
    Eigen::Index facet;
    double lux_per_candela;
    Vector3d from;
    Vector3d to;
  };

  void take_hidden_off() {
    const int count = static_cast<int>(rays_.size());
    lines_.resize(count);
    for (int i = 0; i < count; ++i) lines_.set(i, rays_[i].from.cast<float>(), rays_[i].to.cast<float>());
    visibility_.cross_all(lines_);
    for (int i = 0; i < count; ++i) candela_[i] *= lines_.clear[i];
  }

  const DirectLight& light_;
  const Visibility& visibility_;
  Eigen::ArrayXd& lux_;
  Directions directions_;
  std::vector<float> candela_;
  std::vector<Ray> rays_;
  SightLines lines_;
};

DirectLight::DirectLight(const Luminaire& luminaire, std::shared_ptr<const IntensityLookup> intensity,
                         OpeningDetail detail)
    : luminaire_(luminaire),
      intensity_(std::move(intensity)),
      table_from_room_(intensity_->table_from_luminaire() * luminaire.room_from_luminaire.transpose()),
      size_m_(largest_size(luminaire.opening)),
      point_beyond_m_(detail.point_beyond * size_m_),
      half_axes_m_(half_axes(luminaire)) {}

Eigen::ArrayXd DirectLight::illuminances(const Visibility& visibility, const Eigen::Matrix3Xd& points_m,
                                         const Eigen::Matrix3Xd& normals) const {
  Eigen::ArrayXd lux = Eigen::ArrayXd::Zero(points_m.cols());
  Rays rays(*this, visibility, lux);
  for (Eigen::Index i = 0; i < points_m.cols(); ++i) {
    const Vector3d point = points_m.col(i);
    const Vector3d normal = normals.col(i);
    const double distance_m = (point - luminaire_.position_m).norm();
    if (distance_m >= point_beyond_m_) {
      rays.add(i, 1, luminaire_.position_m, point, normal);
      continue;
    }
    const double fineness = std::ceil(3 * size_m_ / std::max(distance_m, size_m_ / k_finest));
    for (const auto& piece : pieces_of(luminaire_.opening.shape, std::min(static_cast<int>(fineness), k_finest))) {
      rays.add(i, piece.share, luminaire_.position_m + half_axes_m_ * piece.place, point, normal);
    }
  }
  rays.finish();
  return luminaire_.output * lux;
}

}  // namespace evenlit
