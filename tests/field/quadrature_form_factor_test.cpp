#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>

#include <Eigen/Geometry>
#include <catch2/catch.hpp>
#include <cmath>
#include <memory>
#include <numbers>
#include <random>

#include "evenlit/field/form_factor.hpp"

using namespace evenlit;
using Eigen::Vector2d;
using Eigen::Vector3d;

namespace {

using Outline = std::vector<Vector3d>;

/// Doubly adaptive quadrature of the GNU Scientific Library.
class Quadrature {
 public:
  explicit Quadrature(double relative) : relative_(relative), workspace_(gsl_integration_cquad_workspace_alloc(100)) {
    gsl_set_error_handler_off();
  }

  template <typename Function>
  double operator()(const Function& function) const {
    gsl_function f{[](double x, void* by) { return (*static_cast<const Function*>(by))(x); },
                   const_cast<Function*>(&function)};
    double result = 0;
    gsl_integration_cquad(&f, 0, 1, 1e-13, relative_, workspace_.get(), &result, nullptr, nullptr);
    return result;
  }

 private:
  struct Free {
    void operator()(gsl_integration_cquad_workspace* w) const { gsl_integration_cquad_workspace_free(w); }
  };
  double relative_;
  std::unique_ptr<gsl_integration_cquad_workspace, Free> workspace_;
};

/// Integral of a function of the place over a convex polygon: a fan of triangles around its middle, each from there (0)
/// to its edge (1).
template <typename Function>
double integral_over(const Outline& polygon, const Function& function, double relative) {
  const Quadrature outwards(relative);
  const Quadrature along(relative / 10);
  Vector3d middle = Vector3d::Zero();
  for (const auto& corner : polygon) middle += corner / static_cast<double>(polygon.size());
  double sum = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vector3d first = polygon[i] - middle;
    const Vector3d edge = polygon[(i + 1) % polygon.size()] - polygon[i];
    sum += first.cross(edge).norm() * outwards([&](double s) {
             return s * along([&](double t) { return function(Vector3d(middle + s * (first + t * edge))); });
           });
  }
  return sum;
}

class Random {
 public:
  explicit Random(unsigned seed) : engine_(seed) {}
  double between(double low, double high) { return std::uniform_real_distribution<double>(low, high)(engine_); }
  Vector3d direction() {
    std::normal_distribution<double> normal;
    return Vector3d(normal(engine_), normal(engine_), normal(engine_)).normalized();
  }

 private:
  std::mt19937 engine_;
};

/// Three to six corners on an ellipse: convex, counter-clockwise seen from where the normal points.
Outline random_polygon(Random& random, const Vector3d& middle, const Vector3d& normal) {
  const int corners = static_cast<int>(random.between(3, 7));
  const Vector3d u = normal.unitOrthogonal() * random.between(0.3, 1.2);
  const Vector3d v = normal.cross(u).normalized() * random.between(0.3, 1.2);
  Outline polygon;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::numbers::pi * (i + random.between(-0.3, 0.3)) / corners;
    polygon.emplace_back(middle + std::cos(angle) * u + std::sin(angle) * v);
  }
  return polygon;
}

/// A convex polygon that stands on the x axis and reaches `inward` from there; its side on the axis runs from `start`
/// to `end`, a single corner when they are equal.
Outline polygon_at_axis(Random& random, double start, double end, const Vector3d& inward) {
  const double reach = random.between(0.4, 1.5);
  std::vector<Vector2d> flat{{start, 0}};
  if (end > start) flat.emplace_back(end, 0);
  flat.emplace_back(end + random.between(0.1, 0.3), reach / 2);
  flat.emplace_back((start + end) / 2, reach);
  flat.emplace_back(start - random.between(0.1, 0.3), reach / 2);
  Outline polygon;
  for (const auto& p : flat) polygon.emplace_back(p.x() * Vector3d::UnitX() + p.y() * inward);
  return polygon;
}

/// The other way round: seen from the other side.
Outline turned_over(Outline polygon) {
  std::ranges::reverse(polygon);
  return polygon;
}

/// cos cos' / (pi r^2) integrated over the polygon.
double factor_by_quadrature(const Vector3d& point, const Vector3d& normal, const Outline& polygon,
                            const Vector3d& polygon_normal) {
  return integral_over(
      polygon,
      [&](const Vector3d& place) {
        const Vector3d ray = place - point;
        const double r2 = ray.squaredNorm();
        return std::max(0.0, normal.dot(ray)) * std::max(0.0, -polygon_normal.dot(ray)) / (std::numbers::pi * r2 * r2);
      },
      1e-8);
}

/// Configuration factors of the second polygon integrated over the first.
double exchange_by_quadrature(const Outline& first, const Vector3d& first_normal, const Outline& second) {
  return integral_over(
      first, [&](const Vector3d& place) { return configuration_factor(place, first_normal, second); }, 1e-6);
}

bool is_before(const Outline& polygon, const Vector3d& point, const Vector3d& normal) {
  return std::ranges::all_of(polygon, [&](const Vector3d& corner) { return normal.dot(corner - point) > 0; });
}

}  // namespace

// Quadrature: the definition of the factor, E = integral of L cos cos' / r^2 with L = M / pi.
TEST_CASE("configuration factors of random polygons are their integrals", "[field][reference]") {
  Random random(5);
  int cut = 0;
  for (int i = 0; i < 60; ++i) {
    const Vector3d normal = random.direction();
    const Vector3d polygon_normal = random.direction();
    const Vector3d middle = random.between(0.7, 2.5) * random.direction();
    const Outline polygon = random_polygon(random, middle, polygon_normal);
    const double expected = factor_by_quadrature(Vector3d::Zero(), normal, polygon, polygon_normal);
    CAPTURE(i, expected);
    cut += expected > 0 && !is_before(polygon, Vector3d::Zero(), normal);
    // Where the horizon cuts the polygon the integrand has a bend, which costs quadrature two digits.
    CHECK(configuration_factor(Vector3d::Zero(), normal, polygon) == Approx(expected).margin(1e-9).epsilon(1e-6));
  }
  CHECK(cut > 5);  // some are cut
}

TEST_CASE("exchange areas of random polygons apart are their integrals", "[field][reference]") {
  Random random(6);
  int count = 0;
  while (count < 40) {
    const Vector3d first_normal = random.direction();
    const Vector3d second_normal = random.direction();
    const Vector3d middle = random.between(0.8, 4) * random.direction();
    const Outline first = random_polygon(random, Vector3d::Zero(), first_normal);
    const Outline second = random_polygon(random, middle, second_normal);
    if (!is_before(second, first[0], first_normal) || !is_before(first, second[0], second_normal)) continue;
    const double expected = exchange_by_quadrature(first, first_normal, second);
    CAPTURE(count, expected);
    CHECK(exchange_area(first, second) == Approx(expected).epsilon(1e-4));  // "far below 1e-3" where none touch
    ++count;
  }
}

TEST_CASE("exchange areas of polygons that touch are their integrals", "[field][reference]") {
  Random random(7);
  for (int i = 0; i < 40; ++i) {
    const double opening = random.between(25, 130) * std::numbers::pi / 180;  // between the two planes
    const Vector3d inward(0, std::cos(opening), std::sin(opening));
    const bool along_an_edge = i % 2 == 0;
    const double length = along_an_edge ? random.between(0.4, 1.2) : 0;
    const Outline first = polygon_at_axis(random, 0, length, Vector3d::UnitY());
    const Outline second = turned_over(polygon_at_axis(random, 0, length, inward));
    const double expected = exchange_by_quadrature(first, Vector3d::UnitZ(), second);
    CAPTURE(i, along_an_edge, opening, expected);
    CHECK(exchange_area(first, second) == Approx(expected).epsilon(1e-3));  // declared
  }
}
