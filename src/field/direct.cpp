#include "evenlit/field/direct.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
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

LightSource::LightSource(const IntensityDistribution& distribution)
    : lookup(distribution), lumens(evenlit::lumens(distribution)), detail_rad(detail_of(distribution)) {}

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
    light.source_->lookup.toward(directions, size(), candela.data());
  }
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
  std::vector<Eigen::Vector3d> behind;  // normals of the surfaces that cut off a part
  for (const Surface& surface : scene.surfaces) {
    if (std::abs(surface.normal.dot(luminaire_.position_m - surface.corners_m.front())) < k_on_surface_m) {
      behind.push_back(surface.normal);
    }
  }
  const double lumens = luminaire_.output * source_->lumens;
  if (behind.empty()) return lumens;

  constexpr int k_rings = 60;
  constexpr int k_around = 48;
  const Eigen::Matrix3d table_from_room = table_from_room_.cast<double>();
  Directions directions;
  directions.resize(k_around);
  std::vector<float> candela(k_around);
  double all = 0;
  double in_front = 0;
  for (int ring = 0; ring < k_rings; ++ring) {
    const double polar = std::numbers::pi * (ring + 0.5) / k_rings;
    std::vector<bool> is_in_front;
    for (int step = 0; step < k_around; ++step) {
      const double azimuth = 2 * std::numbers::pi * (step + 0.5) / k_around;
      const Eigen::Vector3d in_room = {std::sin(polar) * std::cos(azimuth), std::sin(polar) * std::sin(azimuth),
                                       std::cos(polar)};
      directions.set(step, table_from_room * in_room);
      is_in_front.push_back(std::ranges::all_of(behind, [&](const auto& normal) { return normal.dot(in_room) > 0; }));
    }
    source_->lookup.toward(directions, k_around, candela.data());
    for (int step = 0; step < k_around; ++step) {
      const double part = std::sin(polar) * candela[step];
      all += part;
      in_front += is_in_front[step] ? part : 0;
    }
  }
  return all > 0 ? lumens * in_front / all : 0;
}

int DirectLight::fineness_at(double distance_m) const {
  const double counted_m = distance_m * source_->detail_rad;
  if (counted_m >= detail_.point_beyond * size_m_) return 0;
  const double pieces = std::ceil(6 * size_m_ / std::max(counted_m, size_m_ / k_finest_opening));
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

float DirectLight::light_from_pieces(const Visibility* visibility, const Facets& facets, int facet,
                                     int fineness) const {
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
  if (visibility != nullptr) {
    visibility->cross_all(point, {batch.x.data(), batch.y.data(), batch.z.data()}, batch.size(), batch.clear.data());
    for (int k = 0; k < batch.size(); ++k) batch.candela[k] *= batch.clear[k];
  }
  float sum = 0;
  for (int k = 0; k < batch.size(); ++k) sum += batch.candela[k] * batch.factor[k];
  return sum;
}

Figures DirectLight::figure(const Visibility& visibility) const {
  const Eigen::Matrix<double, 3, 2> axes = half_axes_m_.cast<double>();
  const Eigen::Vector3d& centre = luminaire_.position_m;
  const Eigen::Vector3d corners[] = {centre - axes.col(0) - axes.col(1), centre + axes.col(0) - axes.col(1),
                                     centre + axes.col(0) + axes.col(1), centre - axes.col(0) + axes.col(1)};
  const std::size_t count = size_m_ > 0 ? std::size(corners) : 1;
  Figures opening;
  visibility.add(opening, centre, (corners[0] - centre).norm(), {corners, count});
  return opening;
}

void DirectLight::illuminances(const Visibility& visibility, const Facets& facets, const Figures& figures, int begin,
                               int end, float* lx) const {
  thread_local View view;
  if (visibility.is_always_clear()) return open_illuminances(facets, begin, end, lx);
  visibility.look(figure(visibility), 0, figures, begin, end, view);
  illuminances(&visibility, &view, facets, begin, end, lx);
}

void DirectLight::open_illuminances(const Facets& facets, int begin, int end, float* lx) const {
  illuminances(nullptr, nullptr, facets, begin, end, lx);
}

void DirectLight::illuminances(const Visibility* visibility, const View* view, const Facets& facets, int begin, int end,
                               float* lx) const {
  const auto output = static_cast<float>(luminaire_.output);
  std::vector<int> from_centre;
  for (int i = begin; i < end; ++i) {
    const Sight sight = view != nullptr ? view->sights[i - begin] : Sight::clear;
    lx[i - begin] = 0;
    if (sight == Sight::hidden) continue;
    const bool is_mixed = sight == Sight::mixed;
    int fineness = fineness_at((facets.point(i).cast<double>() - luminaire_.position_m).norm());
    if (is_mixed && size_m_ > 0) fineness = std::max(fineness, detail_.penumbra);
    if (fineness == 0 && !is_mixed) {
      from_centre.push_back(i);
    } else {
      lx[i - begin] = output * light_from_pieces(is_mixed ? visibility : nullptr, facets, i, fineness);
    }
  }
  light_from_centre(facets, from_centre, begin, lx);
  for (const int i : from_centre) lx[i - begin] *= output;
}

}  // namespace evenlit
