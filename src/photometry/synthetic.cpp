#include "evenlit/photometry/synthetic.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>

namespace evenlit {
namespace {

constexpr double k_rad_per_deg = std::numbers::pi / 180;
/// Of a chord from the curve, as a fraction of the peak, at the points where the two are compared; what lies between
/// these stays within the declared 1e-4.
constexpr double k_largest_deviation = 9e-5;

/// cos^n of an angle, 0 from the horizontal up.
struct CosinePower {
  double n;

  double operator()(double gamma_deg) const {
    return gamma_deg < 90 ? std::pow(std::cos(gamma_deg * k_rad_per_deg), n) : 0;
  }
};

bool follows_chord(const CosinePower& curve, double from_deg, double to_deg) {
  const double from = curve(from_deg);
  const double to = curve(to_deg);
  return std::ranges::all_of(std::array{0.25, 0.5, 0.75}, [&](double way) {
    return std::abs(curve(std::lerp(from_deg, to_deg, way)) - std::lerp(from, to, way)) <= k_largest_deviation;
  });
}

/// Appends the knots after `from_deg`, up to and with `to_deg`, halving every interval whose chord leaves the curve.
void append_knots(std::vector<double>& knots, const CosinePower& curve, double from_deg, double to_deg) {
  if (follows_chord(curve, from_deg, to_deg)) {
    knots.push_back(to_deg);
    return;
  }
  const double middle_deg = std::midpoint(from_deg, to_deg);
  append_knots(knots, curve, from_deg, middle_deg);
  append_knots(knots, curve, middle_deg, to_deg);
}

}  // namespace

IntensityDistribution cosine_power_beam(double lumens, double beam_angle_deg) {
  const double half_deg = beam_angle_deg / 2;
  const CosinePower curve{std::log(0.5) / std::log(std::cos(half_deg * k_rad_per_deg))};

  IntensityDistribution distribution{.gamma_deg = {0}, .c_deg = {0}, .candela = {}};
  append_knots(distribution.gamma_deg, curve, 0, half_deg);
  append_knots(distribution.gamma_deg, curve, half_deg, 90);
  distribution.candela.resize(std::ssize(distribution.gamma_deg), 1);
  std::ranges::transform(distribution.gamma_deg, distribution.candela.data(), curve);

  const double unit_lumens = evenlit::lumens(distribution);
  return scaled(std::move(distribution), lumens / unit_lumens);
}

}  // namespace evenlit
