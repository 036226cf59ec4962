// Plans as they are measured: turned by any angle, corners to the nearest tenth of a millimetre or millimetre, so that
// walls miss right angles and each other's lines by a little.

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "interreflection.hpp"
#include "reference/sample_beams.hpp"
#include "rooms.hpp"

using namespace evenlit;
using namespace evenlit::testing;
using Eigen::Vector2d;
using Eigen::Vector3d;

namespace {

constexpr double k_ceiling_m = 2.4;
constexpr std::array k_steps_m{0.0, 1e-4, 1e-3};  ///< to which corners are rounded; 0: not at all

/// Turned about the origin, then moved, as it is read off a survey.
struct Turn {
  Eigen::Matrix2d rotation;
  Vector2d shift_m;

  [[nodiscard]] Vector2d operator()(const Vector2d& point) const { return rotation * point + shift_m; }

  [[nodiscard]] Polygon plan(const Polygon& plan, double step_m) const {
    Polygon turned;
    for (const Vector2d& corner : plan) {
      const Vector2d exact = (*this)(corner);
      turned.push_back(step_m > 0 ? Vector2d((exact / step_m).array().round() * step_m) : exact);
    }
    return turned;
  }
};

class RandomPlans {
 public:
  explicit RandomPlans(unsigned seed) : random_(seed) {}

  /// An L, a T, a U, or a polygon of 4 to 12 corners that its middle sees all of.
  Polygon next(int kind) {
    const double x = between(3, 7), y = between(3, 7);
    const double a = between(0.25, 0.45) * x, b = between(0.55, 0.75) * x, c = between(0.3, 0.6) * y;
    if (kind % 4 == 0) return {{0, 0}, {x, 0}, {x, c}, {a, c}, {a, y}, {0, y}};
    if (kind % 4 == 1) return {{0, c}, {a, c}, {a, 0}, {b, 0}, {b, c}, {x, c}, {x, y}, {0, y}};
    if (kind % 4 == 2) return {{0, 0}, {x, 0}, {x, y}, {b, y}, {b, c}, {a, c}, {a, y}, {0, y}};
    const int corners = 4 + static_cast<int>(between(0, 9));
    Polygon plan;
    for (int i = 0; i < corners; ++i) {
      const double angle = 2 * std::numbers::pi * (i + between(-0.2, 0.2)) / corners;
      plan.push_back(between(1.5, 3.5) * Vector2d(std::cos(angle), std::sin(angle)));
    }
    return plan;
  }

  /// A point at least so far from the walls.
  Vector2d inside(const Polygon& plan, double from_walls_m) {
    const Eigen::AlignedBox2d bounds = bounds_of(plan);
    for (;;) {
      const Vector2d point(between(bounds.min().x(), bounds.max().x()), between(bounds.min().y(), bounds.max().y()));
      if (is_inside(plan, point) && distance_to_outline(plan, point) >= from_walls_m) return point;
    }
  }

  Turn turn() { return {Eigen::Rotation2Dd(between(-3, 3)).toRotationMatrix(), {between(-10, 10), between(-10, 10)}}; }

 private:
  double between(double least, double most) { return std::uniform_real_distribution(least, most)(random_); }

  std::mt19937 random_;
};

Field light_in(Scene scene, const Vector2d& can, const std::vector<Vector2d>& points) {
  add_point(scene, {can.x(), can.y(), scene.ceiling.height_m(can)}, reference::beam(700, 75));
  std::vector<Receiver> receivers;
  for (const Vector2d& point : points) receivers.push_back({{point.x(), point.y(), 0.95}, Vector3d::UnitZ()});
  return field_at(response(scene, receivers), Eigen::VectorXd::Ones(1));
}

const Polygon k_rectangle{{0, 0}, {5, 0}, {5, 4}, {0, 4}};

Box box(const Vector2d& low, const Vector2d& high, double bottom_m, double top_m, double turn = 0) {
  return {.name = "box",
          .centre_m = (low + high) / 2,
          .half_m = (high - low) / 2,
          .along = {std::cos(turn), std::sin(turn)},
          .bottom_m = bottom_m,
          .top_m = top_m,
          .reflectance = 0.5};
}

Scene with_boxes(Scene scene, std::vector<Box> boxes) {
  place_boxes(scene, std::move(boxes));
  return scene;
}

/// A room in which something is off by a length (or an angle or rise), either way.
struct NearMiss {
  const char* name;
  Scene (*room)(double off);
};

const std::vector<NearMiss> k_near_misses{
    {"a wall with a kink",
     [](double off) {
       return room_over({{0, 0}, {2.3, off}, {5, 0}, {5, 4}, {2, 4 + off}, {0, 4}}, k_ceiling_m);
     }},
    {"walls beside an inner corner off square",
     [](double off) {
       return room_over({{0, 0}, {5, 0}, {5, 1.8 + off}, {2.6, 1.8}, {2.6 - off, 4}, {0, 4}}, k_ceiling_m);
     }},
    {"a nearly level slope",
     [](double off) {
       return room_under_slopes(k_rectangle, {}, {{.wall = "wall 1", .height_m = k_ceiling_m, .rise = std::abs(off)}});
     }},
    {"a box beside a wall",
     [](double off) {
       return with_boxes(room_over(k_rectangle, k_ceiling_m), {box({off, off}, {2, 0.6}, off, 0.9)});
     }},
    {"a box turned against a wall",
     [](double off) {
       return with_boxes(room_over(k_rectangle, k_ceiling_m), {box({0, 0}, {2, 0.6}, 0, 0.9, off)});
     }},
    {"boxes side by side",
     [](double off) {
       return with_boxes(room_over(k_rectangle, k_ceiling_m),
                         {box({0, 0}, {1.2, 0.6}, 0, 0.9), box({1.2 + off, 0}, {2.4, 0.6 + off}, 0, 0.9 + off)});
     }},
    {"a box on another",
     [](double off) {
       return with_boxes(room_over(k_rectangle, k_ceiling_m),
                         {box({0, 0}, {1.2, 0.6}, 0, 0.5), box({off, 0}, {1.2 + off, 0.6}, 0.5 + off, 0.9)});
     }},
};

/// Exchange areas between whole surfaces.
Eigen::MatrixXd between_surfaces(const Mesh& mesh, const ExchangeAreas& areas) {
  const Eigen::Index count = std::ssize(mesh.surfaces);
  Eigen::MatrixXd sums(count, count);
  for (Eigen::Index i = 0; i < count; ++i) {
    for (Eigen::Index j = 0; j < count; ++j) {
      const PatchRange& from = mesh.surfaces[i];
      const PatchRange& to = mesh.surfaces[j];
      sums(i, j) = areas.block(from.begin, to.begin, from.end - from.begin, to.end - to.begin).cast<double>().sum();
    }
  }
  return sums;
}

}  // namespace

// Tolerance: what the engine says of its error both times, and what the rounding of the corners does: walls are moved
// by so much, against a metre or more to the luminaire and the points.
TEST_CASE("a turned plan has the light of the plan as drawn", "[field][property]") {
  constexpr double k_near_m = 1;
  RandomPlans plans(20240611);
  for (int i = 0; i < 40; ++i) {
    const Polygon plan = plans.next(i);
    const Turn turn = plans.turn();
    const Vector2d can = plans.inside(plan, 0.3);
    std::vector<Vector2d> points;
    for (int k = 0; k < 12; ++k) points.push_back(plans.inside(plan, 0.1));
    std::vector<Vector2d> turned_points;
    for (const Vector2d& point : points) turned_points.push_back(turn(point));
    const Field drawn = light_in(room_over(plan, k_ceiling_m), can, points);
    for (const double step_m : k_steps_m) {
      const Field turned = light_in(room_over(turn.plan(plan, step_m), k_ceiling_m), turn(can), turned_points);
      for (Eigen::Index k = 0; k < std::ssize(points); ++k) {
        CAPTURE(i, step_m, k);
        const double margin_lx = drawn.error_lx[k] + turned.error_lx[k] + step_m / k_near_m * drawn.total_lx[k];
        CHECK(turned.total_lx[k] == Approx(drawn.total_lx[k]).margin(margin_lx).epsilon(0));
        CHECK(turned.error_lx[k] < 0.05 * drawn.total_lx.mean());
      }
    }
  }
}

// Tolerance: a millimetre against sides of metres, and that far pairs are integrated at 2 x 2 points of patches that
// may be cut another way.
TEST_CASE("surfaces of a turned plan exchange what those of the plan as drawn do", "[field][property]") {
  RandomPlans plans(20240612);
  for (int i = 0; i < 24; ++i) {
    const Polygon plan = plans.next(i);
    const Turn turn = plans.turn();
    const Scene scene = room_over(plan, k_ceiling_m);
    const Mesh mesh = make_mesh(scene, 0.7);
    const Eigen::MatrixXd drawn = between_surfaces(mesh, exchange_areas(mesh, Visibility(scene)));
    for (const double step_m : k_steps_m) {
      const Scene turned_scene = room_over(turn.plan(plan, step_m), k_ceiling_m);
      const Mesh turned_mesh = make_mesh(turned_scene, 0.7);
      const ExchangeAreas areas = exchange_areas(turned_mesh, Visibility(turned_scene));
      const Eigen::MatrixXd turned = between_surfaces(turned_mesh, areas);
      CAPTURE(i, step_m);
      CHECK(((turned - drawn).cwiseAbs().rowwise().maxCoeff().array() < 1e-3 * drawn.rowwise().sum().array()).all());
    }
  }
}

// Equal direct light and reflectance everywhere: M = rho E / (1 - rho) on every patch of any closed room, and what the
// surfaces absorb is what fell on them at first.
TEST_CASE("a furnace over a plan out of square glows evenly", "[field][exact]") {
  constexpr double k_reflectance = 0.8;
  RandomPlans plans(20240613);
  for (int i = 0; i < 24; ++i) {
    const Polygon plan = plans.next(i);
    const Turn turn = plans.turn();
    for (const double step_m : k_steps_m) {
      CAPTURE(i, step_m);
      const Scene scene =
          room_over(turn.plan(plan, step_m), k_ceiling_m, {k_reflectance, k_reflectance, k_reflectance});
      const Mesh mesh = make_mesh(scene, 0.7);
      const ExchangeAreas areas = exchange_areas(mesh, Visibility(scene));
      CHECK((areas - areas.transpose()).cwiseAbs().maxCoeff() <= 1e-6F * areas.maxCoeff());  // scaled in another order
      double worst = 0;
      for (int k = 0; k < mesh.size(); ++k) {
        worst = std::max(worst, std::abs(areas.row(k).cast<double>().sum() / mesh.patches[k].area_m2 - 1));
      }
      CHECK(worst < 5e-6);  // closed to 1e-6; sums of single-precision numbers add the rest
      const PatchLight m =
          Interreflection(mesh, areas).all_of(PatchLight::Constant(mesh.size(), 1, k_reflectance * 100));
      double fallen_lm = 0, absorbed_lm = 0;
      for (int k = 0; k < mesh.size(); ++k) {
        fallen_lm += 100 * mesh.patches[k].area_m2;
        absorbed_lm += (1 - k_reflectance) / k_reflectance * m(k, 0) * mesh.patches[k].area_m2;
      }
      CHECK(absorbed_lm == Approx(fallen_lm).epsilon(1e-6 / (1 - k_reflectance)));  // as rows are closed, amplified
      const double expected = k_reflectance * 100 / (1 - k_reflectance);
      CHECK(m.minCoeff() == Approx(expected).epsilon(5e-6 / (1 - k_reflectance)));
      CHECK(m.maxCoeff() == Approx(expected).epsilon(5e-6 / (1 - k_reflectance)));
    }
  }
}

// Tolerance: what the engine says of its error both times.
TEST_CASE("what misses by a hair leaves the light as it is", "[field][property]") {
  const std::vector<Vector2d> points{{2.5, 0.3}, {2.2, 0.9}, {0.4, 1.2}, {1.3, 2.1},
                                     {2.4, 1.7}, {4.6, 0.5}, {3.1, 1.1}};
  for (const auto& [name, room] : k_near_misses) {
    const Field exact = light_in(room(0), {1.2, 1.1}, points);
    for (const double off : {1e-8, -1e-8, 1e-6, -1e-6, 1e-5, -1e-5}) {
      const Field missed = light_in(room(off), {1.2, 1.1}, points);
      for (Eigen::Index k = 0; k < std::ssize(points); ++k) {
        CAPTURE(name, off, k);
        const double margin_lx = exact.error_lx[k] + missed.error_lx[k];
        CHECK(missed.total_lx[k] == Approx(exact.total_lx[k]).margin(margin_lx).epsilon(0));
        CHECK(missed.error_lx[k] < 0.05 * exact.total_lx.mean());
      }
    }
  }
}
