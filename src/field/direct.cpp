#include "evenlit/field/direct.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "evenlit/base/vectorised.hpp"
#include "opening_pieces.hpp"

namespace evenlit {
namespace {

double largest_size(const Opening& opening) {
  return opening.shape == Opening::Shape::point ? 0 : std::max(opening.width_m, opening.length_m);
}

Eigen::Matrix<float, 3, 2> half_axes(const Luminaire& luminaire) {
  const Opening& opening = luminaire.opening;
  const double length_m = opening.shape == Opening::Shape::disc ? opening.width_m : opening.length_m;
  const Eigen::Vector2d half = Eigen::Vector2d(length_m, opening.width_m) / 2;
  return (luminaire.room_from_luminaire.leftCols<2>() * half.asDiagonal()).cast<float>();
}

/// Directions of rays in the table's frame, and their cos(incidence) / d^2 multiplied into `factor`. All rays start
/// (`way` 1) or end (-1) at one point.
EVENLIT_VECTORISED
void aim(const float* frame, const float* from, float way, int count, const float* __restrict to_x,
         const float* __restrict to_y, const float* __restrict to_z, const float* __restrict nx,
         const float* __restrict ny, const float* __restrict nz, float* __restrict factor, float* __restrict x,
         float* __restrict y, float* __restrict z) {
  constexpr float k_tiny = 1e-18F;  // a point in the opening itself gets nothing, not infinity
  for (int i = 0; i < count; ++i) {
    const float dx = way * (to_x[i] - from[0]);
    const float dy = way * (to_y[i] - from[1]);
    const float dz = way * (to_z[i] - from[2]);
    const float d2 = dx * dx + dy * dy + dz * dz + k_tiny;
    const float facing = -(dx * nx[i] + dy * ny[i] + dz * nz[i]);
    factor[i] *= (facing > 0 ? facing : 0) / (d2 * std::sqrt(d2));
    x[i] = frame[0] * dx + frame[1] * dy + frame[2] * dz;
    y[i] = frame[3] * dx + frame[4] * dy + frame[5] * dz;
    z[i] = frame[6] * dx + frame[7] * dy + frame[8] * dz + k_tiny;
  }
}

}  // namespace

void Facets::add(const Eigen::Vector3d& point_m, const Eigen::Vector3d& normal) {
  x_m.push_back(static_cast<float>(point_m.x()));
  y_m.push_back(static_cast<float>(point_m.y()));
  z_m.push_back(static_cast<float>(point_m.z()));
  nx.push_back(static_cast<float>(normal.x()));
  ny.push_back(static_cast<float>(normal.y()));
  nz.push_back(static_cast<float>(normal.z()));
}

/// Rays that share one end and are looked up together.
struct DirectLight::Batch {
  std::vector<float> x, y, z;     ///< the other ends
  std::vector<float> nx, ny, nz;  ///< normals of the facets that the rays arrive at
  std::vector<float> factor;      ///< shares of the opening's light; once aimed, lx per cd
  std::vector<float> candela, clear;
  Directions directions;

  [[nodiscard]] int size() const { return static_cast<int>(factor.size()); }

  void resize(std::size_t count) {
    for (auto* values : {&x, &y, &z, &nx, &ny, &nz, &factor, &candela, &clear}) values->resize(count);
    directions.resize(count);
  }

  /// Fills `candela` and `factor`.
  void look_up(const DirectLight& light, const Eigen::Vector3f& shared_end, float way) {
    aim(light.table_from_room_.data(), shared_end.data(), way, size(), x.data(), y.data(), z.data(), nx.data(),
        ny.data(), nz.data(), factor.data(), directions.x.data(), directions.y.data(), directions.z.data());
    light.intensity_->toward(directions, size(), candela.data());
  }
};

DirectLight::DirectLight(const Luminaire& luminaire, std::shared_ptr<const IntensityLookup> intensity,
                         OpeningDetail detail)
    : luminaire_(luminaire),
      intensity_(std::move(intensity)),
      table_from_room_((intensity_->table_from_luminaire() * luminaire.room_from_luminaire.transpose()).cast<float>()),
      detail_(detail),
      size_m_(largest_size(luminaire.opening)),
      half_axes_m_(half_axes(luminaire)) {}

int DirectLight::fineness_at(double distance_m) const {
  if (distance_m >= detail_.point_beyond * size_m_) return 0;
  const double pieces = std::ceil(3 * size_m_ / std::max(distance_m, size_m_ / k_finest_opening));
  return std::min(static_cast<int>(pieces), k_finest_opening);
}

void DirectLight::light_from_centre(const Facets& facets, const std::vector<int>& which, int begin, float* lx) const {
  constexpr std::size_t k_together = 1024;
  thread_local Batch batch;
  for (std::size_t first = 0; first < which.size(); first += k_together) {
    const std::size_t count = std::min(k_together, which.size() - first);
    batch.resize(count);
    for (std::size_t k = 0; k < count; ++k) {
      const int i = which[first + k];
      batch.x[k] = facets.x_m[i];
      batch.y[k] = facets.y_m[i];
      batch.z[k] = facets.z_m[i];
      batch.nx[k] = facets.nx[i];
      batch.ny[k] = facets.ny[i];
      batch.nz[k] = facets.nz[i];
      batch.factor[k] = 1;
    }
    batch.look_up(*this, luminaire_.position_m.cast<float>(), 1);
    for (std::size_t k = 0; k < count; ++k) lx[which[first + k] - begin] = batch.candela[k] * batch.factor[k];
  }
}

float DirectLight::light_from_pieces(const Visibility& visibility, const Facets& facets, int facet, int fineness,
                                     bool may_hide) const {
  thread_local Batch batch;
  const OpeningPieces& pieces = opening_pieces(luminaire_.opening.shape, fineness);
  const Eigen::Vector3f point = facets.point(facet);
  const Eigen::Vector3f normal = facets.normal(facet);
  const Eigen::Vector3f centre = luminaire_.position_m.cast<float>();
  batch.resize(pieces.size());
  for (int k = 0; k < pieces.size(); ++k) {
    batch.x[k] = centre.x() + half_axes_m_(0, 0) * pieces.u[k] + half_axes_m_(0, 1) * pieces.v[k];
    batch.y[k] = centre.y() + half_axes_m_(1, 0) * pieces.u[k] + half_axes_m_(1, 1) * pieces.v[k];
    batch.z[k] = centre.z() + half_axes_m_(2, 0) * pieces.u[k] + half_axes_m_(2, 1) * pieces.v[k];
    batch.nx[k] = normal.x();
    batch.ny[k] = normal.y();
    batch.nz[k] = normal.z();
    batch.factor[k] = pieces.share[k];
  }
  batch.look_up(*this, point, -1);
  if (may_hide) {
    visibility.cross_all(point, {batch.x.data(), batch.y.data(), batch.z.data()}, batch.size(), batch.clear.data());
    for (int k = 0; k < batch.size(); ++k) batch.candela[k] *= batch.clear[k];
  }
  float sum = 0;
  for (int k = 0; k < batch.size(); ++k) sum += batch.candela[k] * batch.factor[k];
  return sum;
}

void DirectLight::illuminances(const Visibility& visibility, const Facets& facets, const Figures& figures, int begin,
                               int end, float* lx) const {
  thread_local View view;
  const bool may_hide = !visibility.is_always_clear();
  if (may_hide) {
    Figures opening;
    const Eigen::Matrix<double, 3, 2> axes = half_axes_m_.cast<double>();
    const Eigen::Vector3d& centre = luminaire_.position_m;
    const Eigen::Vector3d corners[] = {centre - axes.col(0) - axes.col(1), centre + axes.col(0) - axes.col(1),
                                       centre + axes.col(0) + axes.col(1), centre - axes.col(0) + axes.col(1)};
    const std::size_t count = size_m_ > 0 ? 4 : 1;
    visibility.add(opening, centre, (corners[0] - centre).norm(), {corners, count});
    visibility.look(opening, 0, figures, begin, end, view);
  }

  const auto output = static_cast<float>(luminaire_.output);
  std::vector<int> from_centre;
  for (int i = begin; i < end; ++i) {
    const Sight sight = may_hide ? view.sights[i - begin] : Sight::clear;
    lx[i - begin] = 0;
    if (sight == Sight::hidden) continue;
    const double distance_m = (facets.point(i).cast<double>() - luminaire_.position_m).norm();
    int fineness = fineness_at(distance_m);
    const bool is_mixed = sight == Sight::mixed;
    if (is_mixed && size_m_ > 0) fineness = std::max(fineness, detail_.penumbra);
    if (fineness == 0 && !is_mixed) {
      from_centre.push_back(i);
    } else {
      lx[i - begin] = output * light_from_pieces(visibility, facets, i, fineness, is_mixed);
    }
  }
  light_from_centre(facets, from_centre, begin, lx);
  for (const int i : from_centre) lx[i - begin] *= output;
}

}  // namespace evenlit
