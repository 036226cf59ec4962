#include "path_tracer.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <boost/random/sobol.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "evenlit/base/parallel.hpp"
#include "plain_intensity.hpp"
#include "ray_scene.hpp"

namespace evenlit::reference {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

constexpr int k_sobol_dimensions = 24;  ///< four bounces of six numbers; later ones are pseudo-random
constexpr double k_lift_m = 5e-5;       ///< rays begin this far above their face
constexpr double k_faint = 0.3;         ///< paths of less weight than this end sooner or later

/// Points x dimensions, in [0, 1).
Eigen::ArrayXXd sobol_points(int count) {
  boost::random::sobol engine(k_sobol_dimensions);
  Eigen::ArrayXXd points(k_sobol_dimensions, count);
  for (double& x : points.reshaped()) x = std::ldexp(static_cast<double>(engine() >> 11), -53);
  return points;
}

/// The numbers of one path after the other.
class Numbers {
 public:
  Numbers(const Eigen::ArrayXXd& points, std::seed_seq& seed) : points_(points), random_(seed), shift_(points.rows()) {
    for (double& x : shift_) x = uniform_(random_);
  }

  void begin_path(int path) {
    path_ = path;
    used_ = 0;
  }

  double next() {
    if (used_ == points_.rows()) return uniform_(random_);
    const double x = points_(used_, path_) + shift_[used_];
    ++used_;
    return x < 1 ? x : x - 1;
  }

  Vector2d next_pair() {
    const double first = next();
    return {first, next()};
  }

 private:
  const Eigen::ArrayXXd& points_;
  std::mt19937_64 random_;
  std::uniform_real_distribution<double> uniform_;
  Eigen::ArrayXd shift_;
  int path_ = 0;
  Eigen::Index used_ = 0;
};

/// A uniform point of a disc of radius 1.
Vector2d on_disc(const Vector2d& u) {
  const double angle = 2 * std::numbers::pi * u.y();
  return std::sqrt(u.x()) * Vector2d(std::cos(angle), std::sin(angle));
}

Vector3d on_opening(const Luminaire& luminaire, const Vector2d& u) {
  const Opening& opening = luminaire.opening;
  Vector2d place = Vector2d::Zero();
  if (opening.shape == Opening::Shape::disc) {
    place = opening.width_m / 2 * on_disc(u);
  } else if (opening.shape != Opening::Shape::point) {
    place = {opening.length_m * (u.x() - 0.5), opening.width_m * (u.y() - 0.5)};
  }
  return luminaire.position_m + luminaire.room_from_luminaire * Vector3d(place.x(), place.y(), 0);
}

/// In proportion to the cosine, around a unit normal.
Vector3d diffuse_direction(const Vector3d& normal, const Vector2d& u) {
  const Vector2d foot = on_disc(u);
  const Vector3d aside = normal.unitOrthogonal();
  return foot.x() * aside + foot.y() * normal.cross(aside) + std::sqrt(std::max(0.0, 1 - u.x())) * normal;
}

class Tracer {
 public:
  explicit Tracer(const Scene& scene) : scene_(scene), rays_(scene.surfaces) {}

  struct Sums {
    double direct_lx = 0;
    double indirect_lx = 0;
    std::int64_t rays = 0;
    std::int64_t escaped = 0;
  };

  /// Adds one path to the sums.
  void follow(const Receiver& receiver, Numbers& numbers, Sums& sums) const {
    Vector3d point = receiver.position_m + k_lift_m * receiver.normal;
    Vector3d normal = receiver.normal;
    sums.direct_lx += direct(point, normal, numbers, sums);
    for (double weight = 1;;) {
      const Vector3d direction = diffuse_direction(normal, numbers.next_pair());
      const auto hit = rays_.first_hit(point, direction);
      ++sums.rays;
      sums.escaped += !hit;
      if (!hit) return;
      const Surface& surface = scene_.surfaces[hit->surface];
      if (surface.normal.dot(direction) >= 0) return;  // from inside a box or from outside
      normal = surface.normal;
      point = hit->point_m + k_lift_m * normal;
      weight *= surface.reflectance;
      if (weight == 0) return;
      sums.indirect_lx += weight * direct(point, normal, numbers, sums);
      if (numbers.next() >= weight / k_faint) return;
      weight = std::max(weight, k_faint);
    }
  }

 private:
  struct Candidate {
    Vector3d source;
    double sum_lx;  ///< unhindered, with all before it
  };

  /// An estimate of the illuminance straight from the luminaires.
  double direct(const Vector3d& point, const Vector3d& normal, Numbers& numbers, Sums& sums) const {
    const Vector2d u = numbers.next_pair();
    const double pick = numbers.next();
    thread_local std::vector<Candidate> candidates;
    candidates.clear();
    double sum = 0;
    for (const Luminaire& luminaire : scene_.luminaires) {
      const Vector3d source = on_opening(luminaire, u);
      const double lux = unhindered(luminaire, source, point, normal);
      if (lux == 0) continue;
      sum += lux;
      candidates.push_back({source, sum});
    }
    if (candidates.empty()) return 0;
    const auto picked = std::ranges::upper_bound(candidates, pick * sum, {}, &Candidate::sum_lx);
    ++sums.rays;
    return rays_.is_clear(point, picked->source) ? sum : 0;
  }

  [[nodiscard]] double unhindered(const Luminaire& luminaire, const Vector3d& source, const Vector3d& point,
                                  const Vector3d& normal) const {
    const Vector3d ray = point - source;
    const double facing = -normal.dot(ray);
    if (facing <= 0) return 0;
    const double candela =
        plain_intensity(scene_.distributions[luminaire.distribution], luminaire.room_from_luminaire.transpose() * ray);
    const double d2 = ray.squaredNorm();
    return luminaire.output * candela * facing / (d2 * std::sqrt(d2));
  }

  const Scene& scene_;
  RayScene rays_;
};

}  // namespace

TracedLight traced_light(const Scene& scene, const std::vector<Receiver>& receivers, const Sampling& sampling) {
  const Tracer tracer(scene);
  const Eigen::ArrayXXd points = sobol_points(sampling.paths);
  const auto count = static_cast<Eigen::Index>(receivers.size());
  TracedLight light{Eigen::ArrayXd(count), Eigen::ArrayXd(count), Eigen::ArrayXd(count)};
  std::vector<Tracer::Sums> work(receivers.size());
  parallel_for(static_cast<int>(receivers.size()), [&](int i) {
    Eigen::ArrayXd total_lx(sampling.replicates);
    Eigen::ArrayXd direct_lx(sampling.replicates);
    for (int replicate = 0; replicate < sampling.replicates; ++replicate) {
      std::seed_seq seed{sampling.seed, static_cast<std::uint32_t>(i), static_cast<std::uint32_t>(replicate)};
      Numbers numbers(points, seed);
      Tracer::Sums sums;
      for (int path = 0; path < sampling.paths; ++path) {
        numbers.begin_path(path);
        tracer.follow(receivers[i], numbers, sums);
      }
      direct_lx[replicate] = sums.direct_lx / sampling.paths;
      total_lx[replicate] = (sums.direct_lx + sums.indirect_lx) / sampling.paths;
      work[i].rays += sums.rays;
      work[i].escaped += sums.escaped;
    }
    const double n = sampling.replicates;
    light.total_lx[i] = total_lx.mean();
    light.direct_lx[i] = direct_lx.mean();
    light.standard_error_lx[i] = std::sqrt((total_lx - total_lx.mean()).square().sum() / (n * (n - 1)));
  });
  for (const auto& sums : work) {
    light.rays += sums.rays;
    light.escaped += sums.escaped;
  }
  return light;
}

}  // namespace evenlit::reference
