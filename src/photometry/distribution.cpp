#include "evenlit/photometry/distribution.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sphere.hpp"

namespace evenlit {
namespace {

/// Where a value lies among ascending knots: between `below` and `below + 1`, at `fraction` of the way.
struct Bracket {
  Eigen::Index below;
  double fraction;
};

/// @param value within the first and the last knot
Bracket bracket(const std::vector<double>& knots, double value) {
  const auto above = std::upper_bound(knots.begin() + 1, knots.end() - 1, value);
  const auto below = above - 1;
  return {below - knots.begin(), (value - *below) / (*above - *below)};
}

/// The angles with gamma in 0...180, C in 0...360.
Angles wrapped(Angles at) {
  const double gamma_deg = std::remainder(at.gamma_deg, 360);
  return {std::abs(gamma_deg), wrapped_c_deg(gamma_deg < 0 ? at.c_deg + 180 : at.c_deg)};
}

bool is_single(const IntensityDistribution& d) { return d.c_deg.size() == 1; }

/// Bilinear in the table's own angles.
double in_table(const IntensityDistribution& d, Angles at) {
  if (at.gamma_deg < d.gamma_deg.front() || at.gamma_deg > d.gamma_deg.back()) return 0;
  const auto [i, u] = bracket(d.gamma_deg, at.gamma_deg);
  const auto in_plane = [&d, i = i, u = u](Eigen::Index j) {
    return std::lerp(d.candela(i, j), d.candela(i + 1, j), u);
  };
  if (is_single(d)) return in_plane(0);

  const bool at_pole = at.gamma_deg == 0 || at.gamma_deg == 180;  // where all planes meet
  if (at_pole) at.c_deg = d.c_deg.front();
  if (at.c_deg > d.c_deg.back()) at.c_deg -= 360;
  if (at.c_deg < d.c_deg.front()) at.c_deg += 360;
  if (at.c_deg > d.c_deg.back()) return 0;
  const auto [j, v] = bracket(d.c_deg, at.c_deg);
  return std::lerp(in_plane(j), in_plane(j + 1), v);
}

/// Mean over the full circle around the vertical at one gamma, by equal steps.
double mean_around(const IntensityDistribution& d, double gamma_deg) {
  constexpr int k_steps = 720;
  double sum = 0;
  for (int step = 0; step < k_steps; ++step) sum += intensity_at(d, gamma_deg, 360.0 * step / k_steps);
  return sum / k_steps;
}

/// Mean over the full circle of the piecewise linear function of C, a value for each gamma of the table.
Eigen::ArrayXd mean_over_c(const IntensityDistribution& d) {
  if (is_single(d)) return d.candela.col(0);
  Eigen::ArrayXd sum = Eigen::ArrayXd::Zero(d.candela.rows());
  for (Eigen::Index j = 1; j < d.candela.cols(); ++j) {
    sum += (d.c_deg[j] - d.c_deg[j - 1]) / 2 * (d.candela.col(j - 1) + d.candela.col(j));
  }
  return sum / 360;
}

/// Flux in the ring between two angles, where the intensity is linear in the angle.
///
/// With t the middle and h half the width: the mean intensity times the ring's solid angle 2 pi 2 sin t sin h, and the
/// slope times 2 pi times the integral of (x - t) sin x dx = 2 cos t (sin h - h cos h). No two large terms cancel here,
/// so narrow rings lose no digits.
double ring_lumens(double from_deg, double from_cd, double to_deg, double to_cd) {
  const double t = (from_deg + to_deg) / 2 / k_deg_per_rad;
  const double h = (to_deg - from_deg) / 2 / k_deg_per_rad;
  return 2 * std::numbers::pi *
         ((from_cd + to_cd) * std::sin(t) * std::sin(h) +
          (to_cd - from_cd) * std::cos(t) * (std::sin(h) / h - std::cos(h)));
}

/// Flux between two vertical angles of a function that is linear between the knots.
double piecewise_lumens(const std::vector<double>& gamma_deg, const Eigen::ArrayXd& mean_cd, double from_deg,
                        double to_deg) {
  double sum = 0;
  for (Eigen::Index i = 1; i < mean_cd.size(); ++i) {
    const double low_deg = std::max(from_deg, gamma_deg[i - 1]);
    const double high_deg = std::min(to_deg, gamma_deg[i]);
    if (low_deg >= high_deg) continue;
    const auto mean_cd_at = [&](double deg) {
      return std::lerp(mean_cd[i - 1], mean_cd[i], (deg - gamma_deg[i - 1]) / (gamma_deg[i] - gamma_deg[i - 1]));
    };
    sum += ring_lumens(low_deg, mean_cd_at(low_deg), high_deg, mean_cd_at(high_deg));
  }
  return sum;
}

/// Angles from `first` to `last`, as near to `step` apart as fits.
std::vector<double> equal_steps(double first, double last, double step) {
  const int count = std::max(1, static_cast<int>(std::ceil((last - first) / step - 1e-9)));
  std::vector<double> angles;
  for (int i = 0; i <= count; ++i) angles.push_back(std::lerp(first, last, static_cast<double>(i) / count));
  return angles;
}

/// A full circle of planes that begins 90 degrees later: the plane at 270 becomes the one at 0, interpolated where the
/// table has none there.
IntensityDistribution circle_turned_once(const IntensityDistribution& d) {
  IntensityDistribution now{.gamma_deg = d.gamma_deg, .c_deg = {}, .candela = {}};
  const auto split = std::ranges::upper_bound(d.c_deg, 270.0) - d.c_deg.begin();  // first plane beyond 270
  const auto [j, v] = bracket(d.c_deg, 270);
  const Eigen::ArrayXd at_zero = (1 - v) * d.candela.col(j) + v * d.candela.col(j + 1);
  const Eigen::Index planes = d.candela.cols();
  const bool has_plane_there = d.c_deg[split - 1] == 270;
  now.candela.resize(d.candela.rows(), planes + (has_plane_there ? 0 : 1));
  const auto add = [&now](double c_deg, const auto& column) {
    now.candela.col(std::ssize(now.c_deg)) = column;
    now.c_deg.push_back(c_deg);
  };
  add(0, at_zero);
  for (Eigen::Index i = split; i < planes - 1; ++i) add(d.c_deg[i] - 270, d.candela.col(i));
  for (Eigen::Index i = 0; i < split - (has_plane_there ? 1 : 0); ++i) add(d.c_deg[i] + 90, d.candela.col(i));
  add(360, at_zero);
  return now;
}

/// The table seen from the other end of its axis, which a half turn about the vertical asks for where planes share a
/// horizontal one: gamma and C run the other way.
IntensityDistribution reversed(IntensityDistribution d) {
  std::ranges::reverse(d.gamma_deg);
  for (double& deg : d.gamma_deg) deg = 180 - deg;
  d.candela = d.candela.rowwise().reverse().colwise().reverse().eval();
  if (is_single(d)) return d;
  const double offset = d.c_deg.back() == 360 ? 360 : 0;
  std::ranges::reverse(d.c_deg);
  for (double& deg : d.c_deg) deg = offset - deg;
  return d;
}

IntensityDistribution turned_once(IntensityDistribution d) {
  using Axis = IntensityDistribution::Axis;
  switch (d.axis) {
    case Axis::along_c0:
      d.axis = Axis::along_c90;
      return d;
    case Axis::along_c90:
      d = reversed(std::move(d));
      d.axis = Axis::along_c0;
      return d;
    default:
      if (is_single(d)) return d;
      if (is_type_c(d)) return circle_turned_once(d);
      for (const double turn_deg = d.c_deg.front() >= 90 ? -270 : 90; double& deg : d.c_deg) deg += turn_deg;
      return d;
  }
}

}  // namespace

bool is_rotational(const IntensityDistribution& distribution) {
  return is_single(distribution) && distribution.axis == IntensityDistribution::Axis::vertical;
}

bool is_type_c(const IntensityDistribution& distribution) {
  const auto& c = distribution.c_deg;
  return distribution.axis == IntensityDistribution::Axis::vertical &&
         (is_single(distribution) || (c.front() == 0 && c.back() == 360));
}

double intensity_at(const IntensityDistribution& distribution, double gamma_deg, double c_deg) {
  if (distribution.axis != IntensityDistribution::Axis::vertical) {
    return intensity_toward(distribution, direction_of(gamma_deg, c_deg));
  }
  return in_table(distribution, wrapped({gamma_deg, c_deg}));
}

double intensity_toward(const IntensityDistribution& distribution, const Eigen::Vector3d& direction) {
  return in_table(distribution, wrapped(angles_of(table_from_luminaire(distribution.axis) * direction)));
}

Eigen::Matrix3d table_from_luminaire(IntensityDistribution::Axis axis) {
  switch (axis) {
    case IntensityDistribution::Axis::along_c0:
      return (Eigen::Matrix3d() << 0, 0, -1, 0, 1, 0, 1, 0, 0).finished();
    case IntensityDistribution::Axis::along_c90:
      return (Eigen::Matrix3d() << 0, 0, -1, -1, 0, 0, 0, 1, 0).finished();
    default:
      return Eigen::Matrix3d::Identity();
  }
}

IntensityDistribution turned(const IntensityDistribution& distribution, int quarters) {
  IntensityDistribution now = distribution;
  for (int i = (quarters % 4 + 4) % 4; i > 0; --i) now = turned_once(std::move(now));
  return now;
}

IntensityDistribution as_type_c(const IntensityDistribution& distribution, double step_deg) {
  if (is_type_c(distribution)) return distribution;
  IntensityDistribution planes{
      .gamma_deg = equal_steps(0, 180, step_deg), .c_deg = equal_steps(0, 360, step_deg), .candela = {}};
  planes.candela.resize(std::ssize(planes.gamma_deg), std::ssize(planes.c_deg));
  for (Eigen::Index j = 0; j < planes.candela.cols(); ++j) {
    for (Eigen::Index i = 0; i < planes.candela.rows(); ++i) {
      planes.candela(i, j) = intensity_at(distribution, planes.gamma_deg[i], planes.c_deg[j]);
    }
  }
  for (const Eigen::Index pole : {Eigen::Index{0}, planes.candela.rows() - 1}) {
    planes.candela.row(pole) = Eigen::RowVectorXd::Constant(planes.candela.cols(), planes.candela(pole, 0)).array();
  }
  return planes;
}

double lumens(const IntensityDistribution& distribution) {
  return piecewise_lumens(distribution.gamma_deg, mean_over_c(distribution), 0, 180);
}

double zonal_lumens(const IntensityDistribution& distribution, double from_deg, double to_deg) {
  if (distribution.axis == IntensityDistribution::Axis::vertical) {
    return piecewise_lumens(distribution.gamma_deg, mean_over_c(distribution), from_deg, to_deg);
  }
  const auto gamma_deg = equal_steps(from_deg, to_deg, 0.5);
  Eigen::ArrayXd mean_cd(std::ssize(gamma_deg));
  for (Eigen::Index i = 0; i < mean_cd.size(); ++i) mean_cd[i] = mean_around(distribution, gamma_deg[i]);
  return piecewise_lumens(gamma_deg, mean_cd, from_deg, to_deg);
}

IntensityDistribution scaled(IntensityDistribution distribution, double factor) {
  distribution.candela *= factor;
  return distribution;
}

}  // namespace evenlit
