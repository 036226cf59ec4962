#include "plain_reference.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace evenlit::bench {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;
using Triangle = std::array<Vector3d, 3>;
using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

struct Element {
  Triangle corners;
  Vector3d normal;
  double reflectance;
};

Vector3d centre(const Triangle& t) { return (t[0] + t[1] + t[2]) / 3; }
Vector3d area_vector(const Triangle& t) { return (t[1] - t[0]).cross(t[2] - t[0]) / 2; }

/// Points of equal weight that integrate squares exactly (Strang and Fix, 1973).
Triangle samples(const Triangle& t) {
  const auto weighted = [&](int k) -> Vector3d { return t[k] / 2 + (t[0] + t[1] + t[2]) / 6; };
  return {weighted(0), weighted(1), weighted(2)};
}

std::array<Triangle, 4> quarters(const Triangle& t) {
  const Vector3d ab = (t[0] + t[1]) / 2;
  const Vector3d bc = (t[1] + t[2]) / 2;
  const Vector3d ca = (t[2] + t[0]) / 2;
  return {Triangle{t[0], ab, ca}, {ab, t[1], bc}, {ca, bc, t[2]}, {ab, bc, ca}};
}

bool covers(const Triangle& t, const Vector3d& normal, const Vector3d& point) {
  return std::ranges::all_of(std::array{0, 1, 2},
                             [&](int k) { return normal.dot((t[(k + 1) % 3] - t[k]).cross(point - t[k])) >= 0; });
}

/// A simple polygon as triangles: again and again a corner is cut off that no other corner stands in.
std::vector<Triangle> triangles(std::vector<Vector3d> corners, const Vector3d& normal) {
  std::vector<Triangle> result;
  for (std::size_t i = 0; corners.size() >= 3; i = (i + 1) % corners.size()) {
    const std::size_t n = corners.size();
    const Triangle ear{corners[(i + n - 1) % n], corners[i], corners[(i + 1) % n]};
    const bool is_ear = normal.dot(area_vector(ear)) > 0 && std::ranges::none_of(corners, [&](const Vector3d& corner) {
                          return std::ranges::find(ear, corner) == ear.end() && covers(ear, normal, corner);
                        });
    if (!is_ear) continue;
    result.push_back(ear);
    corners.erase(corners.begin() + static_cast<std::ptrdiff_t>(i));
    if (corners.size() < 3) break;
  }
  return result;
}

/// Halves a triangle across its longest side until it is small.
void add_elements(const Triangle& t, const Surface& surface, double largest_m2, std::vector<Element>& elements) {
  if (area_vector(t).norm() <= largest_m2) {
    elements.push_back({t, surface.normal, surface.reflectance});
    return;
  }
  const auto side = [&](int k) { return (t[(k + 1) % 3] - t[k]).norm(); };
  const int k = std::ranges::max(std::array{0, 1, 2}, {}, side);
  const Vector3d middle = (t[k] + t[(k + 1) % 3]) / 2;
  add_elements({t[k], middle, t[(k + 2) % 3]}, surface, largest_m2, elements);
  add_elements({middle, t[(k + 1) % 3], t[(k + 2) % 3]}, surface, largest_m2, elements);
}

/// Whether a wall of the plan crosses the segment.
bool is_blocked(const Polygon& plan, const Vector3d& from, const Vector3d& to) {
  constexpr double k_touch = 1e-9;
  const auto side = [](const Vector2d& a, const Vector2d& b, const Vector2d& p) {
    return (b - a).x() * (p - a).y() - (b - a).y() * (p - a).x();
  };
  const Vector2d p = from.head<2>();
  const Vector2d q = to.head<2>();
  for (std::size_t i = 0; i < plan.size(); ++i) {
    const Vector2d& a = plan[i];
    const Vector2d& b = plan[(i + 1) % plan.size()];
    const double of_p = side(a, b, p);
    const double of_q = side(a, b, q);
    if (std::min(of_p, of_q) < -k_touch && std::max(of_p, of_q) > k_touch && side(p, q, a) * side(p, q, b) < 0) {
      return true;
    }
  }
  return false;
}

/// Illuminance at a point per unit exitance of a triangle: cos cos' / (pi r^2) at points, the triangle divided until it
/// is small against its distance.
double factor(const Polygon& plan, const Vector3d& point, const Vector3d& normal, const Triangle& t,
              const Vector3d& source_normal) {
  const Vector3d area = area_vector(t);
  const double size2 = 4 * area.norm();  // square of the longest side of half a square
  if (size2 > (centre(t) - point).squaredNorm() / 4) {
    constexpr double k_smallest_m2 = 1e-8;
    if (source_normal.dot(point - t[0]) <= 1e-9 || size2 < k_smallest_m2) return 0;
    double sum = 0;
    for (const auto& quarter : quarters(t)) sum += factor(plan, point, normal, quarter, source_normal);
    return sum;
  }
  double sum = 0;
  for (const auto& sample : samples(t)) {
    const Vector3d ray = sample - point;
    const double cosines = std::max(0.0, normal.dot(ray)) * std::max(0.0, -source_normal.dot(ray));
    const double r2 = ray.squaredNorm();
    if (cosines > 0 && !is_blocked(plan, point, sample)) sum += cosines / (r2 * r2);
  }
  return sum * area.norm() / (3 * std::numbers::pi);
}

/// Mean over a triangle of the light straight from each luminaire.
Eigen::RowVectorXd mean_direct(const Scene& scene, const Element& element) {
  constexpr int k_side = 4;
  Eigen::RowVectorXd sum = Eigen::RowVectorXd::Zero(static_cast<Eigen::Index>(scene.luminaires.size()));
  for (const auto& quarter : quarters(element.corners)) {
    for (const auto& sample : samples(quarter)) {
      for (Eigen::Index k = 0; k < sum.size(); ++k) {
        sum[k] += plain_illuminance(scene, scene.luminaires[k], k_side, sample, element.normal) / 12;
      }
    }
  }
  return sum;
}

/// Exitance of every triangle, by Gauss-Seidel. Every row of factors is scaled to add up to 1, as in a closed room.
Matrix exitance(const Scene& scene, const std::vector<Element>& elements) {
  const auto n = static_cast<Eigen::Index>(elements.size());
  Matrix factors(n, n);
  Matrix emitted(n, static_cast<Eigen::Index>(scene.luminaires.size()));
  for (Eigen::Index i = 0; i < n; ++i) {
    const Element& here = elements[i];
    for (Eigen::Index j = 0; j < n; ++j) {
      factors(i, j) = factor(scene.plan_m, centre(here.corners), here.normal, elements[j].corners, elements[j].normal);
    }
    factors.row(i) *= here.reflectance / factors.row(i).sum();
    emitted.row(i) = here.reflectance * mean_direct(scene, here);
  }
  Matrix result = emitted;
  for (double change = 1; change > 1e-9 * result.maxCoeff();) {
    change = 0;
    for (Eigen::Index i = 0; i < n; ++i) {
      const Eigen::RowVectorXd row = emitted.row(i) + factors.row(i) * result;
      change = std::max(change, (row - result.row(i)).cwiseAbs().maxCoeff());
      result.row(i) = row;
    }
  }
  return result;
}

}  // namespace

double plain_illuminance(const Scene& scene, const Luminaire& luminaire, int side, const Vector3d& point,
                         const Vector3d& normal) {
  const bool is_point = luminaire.opening.shape == Opening::Shape::point;
  if (is_point) side = 1;
  const double radius = is_point ? 0 : luminaire.opening.width_m / 2;
  double sum = 0;
  int count = 0;
  for (int row = 0; row < side; ++row) {
    for (int column = 0; column < side; ++column) {
      const Vector3d offset((2 * column + 1.0) / side - 1, (2 * row + 1.0) / side - 1, 0);
      if (offset.norm() > 1) continue;
      ++count;
      const Vector3d source = luminaire.position_m + luminaire.room_from_luminaire * (radius * offset);
      const Vector3d ray = point - source;
      const double facing = -normal.dot(ray);
      if (facing <= 0 || is_blocked(scene.plan_m, source, point)) continue;
      const double candela = intensity_toward(scene.distributions[luminaire.distribution],
                                              luminaire.room_from_luminaire.transpose() * ray);
      sum += candela * facing / std::pow(ray.norm(), 3);
    }
  }
  return luminaire.output * sum / count;
}

PlainLight plain_light(const Scene& scene, const std::vector<Receiver>& receivers, double patch_size_m) {
  constexpr int k_side = 12;
  std::vector<Element> elements;
  for (const auto& surface : scene.surfaces) {
    for (const auto& triangle : triangles(surface.corners_m, surface.normal)) {
      add_elements(triangle, surface, patch_size_m * patch_size_m, elements);
    }
  }
  const Matrix leaving = exitance(scene, elements);
  const auto rows = static_cast<Eigen::Index>(receivers.size());
  PlainLight light{Matrix(rows, leaving.cols()), Matrix::Zero(rows, leaving.cols())};
  for (Eigen::Index i = 0; i < rows; ++i) {
    const auto& [point, normal] = receivers[i];
    for (Eigen::Index k = 0; k < leaving.cols(); ++k) {
      light.direct_lx(i, k) = plain_illuminance(scene, scene.luminaires[k], k_side, point, normal);
    }
    for (std::size_t j = 0; j < elements.size(); ++j) {
      light.indirect_lx.row(i) += factor(scene.plan_m, point, normal, elements[j].corners, elements[j].normal) *
                                  leaving.row(static_cast<Eigen::Index>(j));
    }
  }
  return light;
}

Field plain_field(const Scene& scene, const std::vector<Receiver>& receivers, double patch_size_m) {
  const PlainLight fine = plain_light(scene, receivers, patch_size_m);
  const Eigen::ArrayXd total = fine.total_lx();
  const Eigen::ArrayXd coarse = plain_light(scene, receivers, 2 * patch_size_m).total_lx();
  const double largest_share = ((total - coarse) / total).abs().maxCoeff();
  return {total, fine.direct_lx.rowwise().sum(), largest_share * total};
}

}  // namespace evenlit::bench
