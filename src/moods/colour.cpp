#include "evenlit/moods/colour.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "colour_observer.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

// Along the black bodies the reciprocal temperature is the even measure: steps of it are steps of colour.
constexpr double k_kelvin_mired = 1e6;

/// CIE 1960 u, v of tristimulus values.
Vector2d uv_of(const Vector3d& xyz) {
  const double sum = xyz.x() + 15 * xyz.y() + 3 * xyz.z();
  return {4 * xyz.x() / sum, 6 * xyz.y() / sum};
}

Vector2d uv_of(const Chromaticity& chromaticity) { return uv_of(tristimulus(chromaticity, 1)); }

Chromaticity chromaticity_of_uv(const Vector2d& uv) {
  const double sum = 2 * uv.x() - 8 * uv.y() + 4;
  return {3 * uv.x() / sum, 2 * uv.y() / sum};
}

/// Tristimulus values of a black body, to a common factor, and what they change by per mired.
struct BlackBody {
  Vector3d xyz = Vector3d::Zero();
  Vector3d change = Vector3d::Zero();
};

BlackBody black_body_at(double mired) {
  constexpr double k_c2_nm_kelvin = 1.4388e7;
  constexpr double k_middle_nm = 560;  // wavelengths count in these, so that the values are neither huge nor tiny
  BlackBody body;
  double wavelength_nm = k_first_wavelength_nm;
  for (const ColourMatch& match : k_observer) {
    const double exponent_per_mired = k_c2_nm_kelvin / (wavelength_nm * k_kelvin_mired);
    const double over_one = std::expm1(exponent_per_mired * mired);
    const double emitted = std::pow(wavelength_nm / k_middle_nm, -5) / over_one;
    const Vector3d seen = emitted * Vector3d(match.x, match.y, match.z);
    body.xyz += seen;
    body.change -= seen * (exponent_per_mired * (over_one + 1) / over_one);
    wavelength_nm += k_wavelength_step_nm;
  }
  return body;
}

/// A point of the line of black bodies in CIE 1960 u, v, and its direction toward warmer ones.
struct LinePoint {
  Vector2d uv;
  Vector2d per_mired;
};

LinePoint line_point(double mired) {
  const BlackBody body = black_body_at(mired);
  const auto weighted = [](const Vector3d& xyz) { return xyz.x() + 15 * xyz.y() + 3 * xyz.z(); };
  const Vector2d uv = uv_of(body.xyz);
  const Vector2d change = Vector2d(4 * body.change.x(), 6 * body.change.y()) - weighted(body.change) * uv;
  return {uv, change / weighted(body.xyz)};
}

/// The direction in which Duv counts at a point of the line.
Vector2d upward(const LinePoint& point) { return Vector2d(-point.per_mired.y(), point.per_mired.x()).normalized(); }

constexpr double k_least_mired = k_kelvin_mired / k_hottest_black_body_kelvin;
constexpr double k_most_mired = k_kelvin_mired / k_coolest_black_body_kelvin;

/// Where the line comes nearest to a colour.
double nearest_mired(const Vector2d& uv) {
  constexpr double k_step_mired = 10;
  // One step beyond either end, so that what is nearest to an end is told from what is nearest beyond.
  static const auto k_line = [] {
    std::vector<Vector2d> line;
    for (double mired = k_least_mired - k_step_mired; mired <= k_most_mired + k_step_mired; mired += k_step_mired) {
      line.push_back(line_point(mired).uv);
    }
    return line;
  }();
  const auto nearest =
      std::ranges::min_element(k_line, {}, [&](const Vector2d& at) { return (at - uv).squaredNorm(); });
  const double guess_mired = k_least_mired + k_step_mired * static_cast<double>(nearest - k_line.begin() - 1);
  double low_mired = guess_mired - k_step_mired;
  double high_mired = guess_mired + k_step_mired;
  constexpr int k_halvings = 45;  // of 20 mired, to within rounding of 1000
  for (int i = 0; i < k_halvings; ++i) {
    const double middle_mired = (low_mired + high_mired) / 2;
    const LinePoint point = line_point(middle_mired);
    ((uv - point.uv).dot(point.per_mired) > 0 ? low_mired : high_mired) = middle_mired;
  }
  return (low_mired + high_mired) / 2;
}

}  // namespace

Vector2d uniform_coordinates(const Chromaticity& chromaticity) {
  const Vector2d uv = uv_of(chromaticity);
  return {uv.x(), 1.5 * uv.y()};
}

Vector3d tristimulus(const Chromaticity& chromaticity, double luminous) {
  const double x = chromaticity.x;
  const double y = chromaticity.y;
  return {luminous * x / y, luminous, luminous * (1 - x - y) / y};
}

Chromaticity chromaticity_of(const Vector3d& tristimulus) {
  return {tristimulus.x() / tristimulus.sum(), tristimulus.y() / tristimulus.sum()};
}

Chromaticity black_body(double kelvin) { return chromaticity_of(black_body_at(k_kelvin_mired / kelvin).xyz); }

std::optional<WhiteTone> white_tone(const Chromaticity& chromaticity) {
  constexpr double k_rounding_mired = 1e-9;
  const Vector2d uv = uv_of(chromaticity);
  const double mired = nearest_mired(uv);
  const LinePoint point = line_point(mired);
  const double duv = upward(point).dot(uv - point.uv);
  const bool is_beyond = mired < k_least_mired - k_rounding_mired || mired > k_most_mired + k_rounding_mired;
  if (is_beyond || std::abs(duv) > k_white_within_duv) return std::nullopt;
  return WhiteTone{k_kelvin_mired / mired, duv};
}

Chromaticity chromaticity_of(const WhiteTone& tone) {
  const LinePoint point = line_point(k_kelvin_mired / tone.kelvin);
  return chromaticity_of_uv(point.uv + tone.duv * upward(point));
}

std::optional<MixedLight> mixed_light(std::span<const ColouredLight> lights) {
  Vector3d sum = Vector3d::Zero();
  for (const ColouredLight& light : lights) sum += tristimulus(light.chromaticity, light.lumens);
  if (!(sum.y() > 0)) return std::nullopt;
  const Chromaticity chromaticity = chromaticity_of(sum);
  return MixedLight{sum.y(), chromaticity, white_tone(chromaticity)};
}

}  // namespace evenlit
