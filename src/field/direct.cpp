#include "evenlit/field/direct.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "evenlit/base/vectorised.hpp"
#include "evenlit/room/first_hit.hpp"
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

/// The peak over the steepest change along a plane of the table, rad; 1 where that is more.
double detail_of(const IntensityDistribution& distribution) {
  const double peak = distribution.candela.maxCoeff();
  double steepest = peak;
  for (std::size_t i = 0; i + 1 < distribution.gamma_deg.size(); ++i) {
    const double step_rad = (distribution.gamma_deg[i + 1] - distribution.gamma_deg[i]) * std::numbers::pi / 180;
    const auto row = static_cast<Eigen::Index>(i);
    const double change = (distribution.candela.row(row + 1) - distribution.candela.row(row)).abs().maxCoeff();
    steepest = std::max(steepest, change / step_rad);
  }
  return steepest > 0 ? peak / steepest : 1;
}

Eigen::Vector4f joined(const Eigen::Vector3f& three, float fourth) { return {three[0], three[1], three[2], fourth}; }

/// The rays from the pieces of an opening to one facet, all from what the opening's middle and its two half axes are:
/// in the table's frame, and (the fourth number) along the facet's normal.
EVENLIT_VECTORISED
void aim_pieces(const Eigen::Vector4f& middle, const Eigen::Vector4f& along, const Eigen::Vector4f& across, int count,
                const float* __restrict u, const float* __restrict v, const float* __restrict share,
                float* __restrict x, float* __restrict y, float* __restrict z, float* __restrict facing) {
  for (int i = 0; i < count; ++i) {
    const float toward = -share[i] * (middle[3] - u[i] * along[3] - v[i] * across[3]);
    facing[i] = toward > 0 ? toward : 0;
    x[i] = middle[0] - u[i] * along[0] - v[i] * across[0];
    y[i] = middle[1] - u[i] * along[1] - v[i] * across[1];
    z[i] = middle[2] - u[i] * along[2] - v[i] * across[2];
  }
}

/// Where the pieces of an opening are.
///
/// @param axes the two half axes, one after the other
EVENLIT_VECTORISED
void place_pieces(const float* middle, const float* axes, int count, const float* __restrict u,
                  const float* __restrict v, float* __restrict x, float* __restrict y, float* __restrict z) {
  for (int i = 0; i < count; ++i) {
    x[i] = middle[0] + u[i] * axes[0] + v[i] * axes[3];
    y[i] = middle[1] + u[i] * axes[1] + v[i] * axes[4];
    z[i] = middle[2] + u[i] * axes[2] + v[i] * axes[5];
  }
}

/// The squares of distances from a point; returns how many are less than `limit_m2`.
EVENLIT_VECTORISED
int square_distances(const float* from, float limit_m2, int count, const float* __restrict x, const float* __restrict y,
                     const float* __restrict z, float* __restrict squared_m2) {
  int less = 0;
  for (int i = 0; i < count; ++i) {
    const float dx = x[i] - from[0];
    const float dy = y[i] - from[1];
    const float dz = z[i] - from[2];
    squared_m2[i] = dx * dx + dy * dy + dz * dz;
    less += squared_m2[i] < limit_m2 ? 1 : 0;
  }
  return less;
}

}  // namespace

LightSource::LightSource(const IntensityDistribution& distribution)
    : lookup(distribution), lumens(evenlit::lumens(distribution)), detail_rad(detail_of(distribution)) {
  constexpr int k_rings = 60;
  constexpr int k_around = 48;
  directions.resize(3, k_rings * k_around);
  shares.resize(k_rings * k_around);
  Directions toward;
  toward.resize(k_around);
  std::vector<float> candela(k_around);
  Eigen::Matrix2Xd around(2, k_around);
  for (int step = 0; step < k_around; ++step) {
    const double azimuth = 2 * std::numbers::pi * (step + 0.5) / k_around;
    around.col(step) << std::cos(azimuth), std::sin(azimuth);
  }
  for (int ring = 0; ring < k_rings; ++ring) {
    const double polar = std::numbers::pi * (ring + 0.5) / k_rings;
    const double sine = std::sin(polar);
    const double cosine = std::cos(polar);
    for (int step = 0; step < k_around; ++step) {
      const Eigen::Vector3d direction(sine * around(0, step), sine * around(1, step), cosine);
      toward.set(step, direction);
      directions.col(ring * k_around + step) = direction.cast<float>();
    }
    const std::vector<float> of_sphere(k_around, static_cast<float>(sine));
    lookup.illuminances(toward, of_sphere.data(), k_around, candela.data());
    shares.segment<k_around>(ring * k_around) = Eigen::Map<const Eigen::ArrayXf>(candela.data(), k_around);
  }
  const float all = shares.sum();
  if (all > 0) shares /= all;
}

void Facets::add(const Eigen::Vector3d& point_m, const Eigen::Vector3d& normal) {
  x_m.push_back(static_cast<float>(point_m.x()));
  y_m.push_back(static_cast<float>(point_m.y()));
  z_m.push_back(static_cast<float>(point_m.z()));
  nx.push_back(static_cast<float>(normal.x()));
  ny.push_back(static_cast<float>(normal.y()));
  nz.push_back(static_cast<float>(normal.z()));
}

void Facets::reserve(std::size_t count) {
  for (auto* values : {&x_m, &y_m, &z_m, &nx, &ny, &nz}) values->reserve(count);
}

/// Rays that are looked up together.
struct DirectLight::Rays {
  static constexpr int k_most = 1024;  ///< the finest opening has 576 pieces

  Directions in_table_m;
  std::vector<float> facing_m = std::vector<float>(k_most);  ///< lengths times cos(incidence), as shares of the light
  std::vector<float> lx = std::vector<float>(k_most);

  Rays() { in_table_m.resize(k_most); }
};

/// A facet that sees the opening as many pieces, or a part of it.
struct DirectLight::Divided {
  int facet;
  const OpeningPieces* pieces;
  bool is_mixed;
};

DirectLight::DirectLight(const Luminaire& luminaire, std::shared_ptr<const LightSource> source, OpeningDetail detail)
    : luminaire_(luminaire),
      source_(std::move(source)),
      table_from_room_(
          (source_->lookup.table_from_luminaire() * luminaire.room_from_luminaire.transpose()).cast<float>()),
      detail_(detail),
      size_m_(largest_size(luminaire.opening)),
      half_axes_m_(half_axes(luminaire)) {}

DirectLight DirectLight::with(OpeningDetail detail) const {
  DirectLight result = *this;
  result.detail_ = detail;
  return result;
}

double DirectLight::lumens_into(const Scene& scene) const {
  constexpr double k_on_surface_m = 1e-3;
  Eigen::ArrayXf in_front = source_->shares;
  for (const Surface& surface : scene.surfaces) {
    const double above_m = surface.normal.dot(luminaire_.position_m - surface.corners_m.front());
    if (std::abs(above_m) > k_on_surface_m || !is_on_free_part(surface, luminaire_.position_m)) continue;
    const Eigen::Vector3f normal = table_from_room_ * surface.normal.cast<float>();
    in_front *= ((normal.transpose() * source_->directions).array().transpose() > 0).cast<float>();
  }
  return luminaire_.output * source_->lumens * in_front.sum();
}

int DirectLight::fineness_at(double distance_m) const {
  const double counted_m = distance_m * source_->detail_rad;
  if (counted_m >= detail_.point_beyond * size_m_) return 0;
  const double pieces = std::ceil(6 * size_m_ / std::max(counted_m, size_m_ / k_finest_opening));
  return std::min(static_cast<int>(pieces), k_finest_opening);
}

bool DirectLight::is_behind(const Facets& facets, int facet) const {
  constexpr float k_on_plane_m = 1e-6F;
  const Eigen::Vector3f normal = facets.normal(facet);
  const float in_front_m = normal.dot(centre() - facets.point(facet));
  return in_front_m + (half_axes_m_.transpose() * normal).lpNorm<1>() < k_on_plane_m;
}

void DirectLight::light_from_centre(const Facets& facets, int begin, int end, float* lx) const {
  const PointLight light{table_from_room_, centre(), static_cast<float>(luminaire_.output)};
  source_->lookup.illuminances(light, facets.arrays(begin), end - begin, lx);
}

void DirectLight::light_from_pieces(const Visibility* visibility, const View* view, const Facets& facets,
                                    const std::vector<Divided>& divided, int begin, float* lx) const {
  thread_local Rays rays;
  const auto output = static_cast<float>(luminaire_.output);
  const Eigen::Matrix<float, 3, 2> axes_in_table_m = table_from_room_ * half_axes_m_;
  for (std::size_t first = 0, last = 0; first < divided.size(); first = last) {
    int count = 0;
    for (; last < divided.size() && count + divided[last].pieces->size() <= Rays::k_most; ++last) {
      const auto& [facet, pieces, is_mixed] = divided[last];
      const Eigen::Vector3f normal = facets.normal(facet);
      const Eigen::Vector3f ray = facets.point(facet) - centre();
      const Eigen::Vector2f facing = half_axes_m_.transpose() * normal;
      aim_pieces(joined(table_from_room_ * ray, ray.dot(normal)), joined(axes_in_table_m.col(0), facing[0]),
                 joined(axes_in_table_m.col(1), facing[1]), pieces->size(), pieces->u.data(), pieces->v.data(),
                 pieces->share.data(), rays.in_table_m.x.data() + count, rays.in_table_m.y.data() + count,
                 rays.in_table_m.z.data() + count, rays.facing_m.data() + count);
      count += pieces->size();
    }
    source_->lookup.illuminances(rays.in_table_m, rays.facing_m.data(), count, rays.lx.data());
    float* of_pieces = rays.lx.data();
    for (std::size_t i = first; i < last; ++i) {
      const auto& [facet, pieces, is_mixed] = divided[i];
      if (is_mixed) hide(*visibility, *view, facet - begin, facets.point(facet), *pieces, of_pieces);
      lx[facet - begin] = output * Eigen::Map<const Eigen::ArrayXf>(of_pieces, pieces->size()).sum();
      of_pieces += pieces->size();
    }
  }
}

void DirectLight::hide(const Visibility& visibility, const View& view, int figure, const Eigen::Vector3f& point,
                       const OpeningPieces& pieces, float* lx) const {
  thread_local std::vector<float> x, y, z, clear;
  for (auto* values : {&x, &y, &z, &clear}) values->resize(pieces.size());
  const Eigen::Vector3f middle = centre();
  place_pieces(middle.data(), half_axes_m_.data(), pieces.size(), pieces.u.data(), pieces.v.data(), x.data(), y.data(),
               z.data());
  std::ranges::fill(clear, 1.0F);
  visibility.cross_seen(view, figure, point, {x.data(), y.data(), z.data()}, pieces.size(), clear.data());
  for (int k = 0; k < pieces.size(); ++k) lx[k] *= clear[k];
}

void DirectLight::add_to(Figures& figures, const Visibility& visibility) const {
  const Eigen::Matrix<double, 3, 2> axes = half_axes_m_.cast<double>();
  const Eigen::Vector3d& centre = luminaire_.position_m;
  const Eigen::Vector3d corners[] = {centre - axes.col(0) - axes.col(1), centre + axes.col(0) - axes.col(1),
                                     centre + axes.col(0) + axes.col(1), centre - axes.col(0) + axes.col(1)};
  const std::size_t count = size_m_ > 0 ? std::size(corners) : 1;
  visibility.add(figures, centre, (corners[0] - centre).norm(), {corners, count});
}

void DirectLight::illuminances(const Visibility& visibility, const Facets& facets, const Figures& figures, int begin,
                               int end, float* lx) const {
  thread_local View view;
  if (visibility.is_always_clear()) return open_illuminances(facets, begin, end, lx);
  Figures opening;
  add_to(opening, visibility);
  visibility.look(opening, 0, figures, begin, end, view);
  illuminances(&visibility, &view, facets, begin, end, lx);
}

void DirectLight::open_illuminances(const Facets& facets, int begin, int end, float* lx) const {
  illuminances(nullptr, nullptr, facets, begin, end, lx);
}

void DirectLight::illuminances(const Visibility* visibility, const View* view, const Facets& facets, int begin, int end,
                               float* lx) const {
  light_from_centre(facets, begin, end, lx);
  if (view != nullptr || size_m_ > 0) mend_light(visibility, view, facets, begin, end, lx);
}

void DirectLight::mend_light(const Visibility* visibility, const View* view, const Facets& facets, int begin, int end,
                             float* lx) const {
  thread_local std::vector<float> squares;
  thread_local std::vector<Divided> divided;
  const int count = end - begin;
  const Points points = facets.points(begin);
  const double far_m = detail_.point_beyond * size_m_ / source_->detail_rad;
  const auto far_m2 = static_cast<float>(far_m * far_m);
  squares.resize(count);
  float* squared_m2 = squares.data();
  const int near = square_distances(centre().data(), far_m2, count, points.x_m, points.y_m, points.z_m, squared_m2);
  if (view == nullptr && near == 0) return;

  divided.clear();
  for (int k = 0; k < count; ++k) {
    const Sight sight = view != nullptr ? view->sights[k] : Sight::clear;
    const bool is_mixed = sight == Sight::mixed;
    if (sight == Sight::hidden || is_behind(facets, begin + k)) {
      lx[k] = 0;
    } else if (is_mixed || squared_m2[k] < far_m2) {
      int fineness = fineness_at(std::sqrt(squared_m2[k]));
      if (is_mixed && size_m_ > 0) fineness = std::max(fineness, detail_.penumbra);
      divided.push_back({begin + k, &opening_pieces(luminaire_.opening.shape, fineness), is_mixed});
    }
  }
  light_from_pieces(visibility, view, facets, divided, begin, lx);
}

}  // namespace evenlit
