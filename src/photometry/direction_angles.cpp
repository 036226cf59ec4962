#include "direction_angles.hpp"

#include <cmath>
#include <numbers>

#include "evenlit/base/vectorised.hpp"

namespace evenlit {
namespace {

constexpr float k_deg_per_rad = 180 / std::numbers::pi_v<float>;
constexpr float k_tiny = 1e-30F;  ///< keeps 0/0 away

/// The angle of (x, y) with y >= 0, from +x, 0...180 degrees. The arc tangent of 0...1 is x times a polynomial in x^2,
/// interpolated at Chebyshev points: within 6.4e-8 rad.
inline float upper_angle_deg(float x, float y) {
  const float ax = std::abs(x);
  const float larger = ax > y ? ax : y;
  const float smaller = ax > y ? y : ax;
  const float t = smaller / (larger + k_tiny);
  const float s = t * t;
  float p = -0.00455979199F;
  p = p * s + 0.0237805186F;
  p = p * s - 0.0588297531F;
  p = p * s + 0.0986886546F;
  p = p * s - 0.140032902F;
  p = p * s + 0.199669618F;
  p = p * s - 0.333318127F;
  p = p * s + 0.999999882F;
  const float within_45 = p * t * k_deg_per_rad;
  const float within_90 = y > ax ? 90 - within_45 : within_45;
  return x < 0 ? 180 - within_90 : within_90;
}

EVENLIT_VECTORISED
void polar_loop(const float* __restrict x, const float* __restrict y, const float* __restrict z, int count,
                float* __restrict gamma_deg) {
  for (int i = 0; i < count; ++i) gamma_deg[i] = upper_angle_deg(-z[i], std::sqrt(x[i] * x[i] + y[i] * y[i]));
}

EVENLIT_VECTORISED
void azimuth_loop(const float* __restrict x, const float* __restrict y, int count, float* __restrict c_deg) {
  for (int i = 0; i < count; ++i) {
    const float angle = upper_angle_deg(x[i], std::abs(y[i]));
    c_deg[i] = y[i] < 0 ? -angle : angle;
  }
}

}  // namespace

void direction_angles(const float* x, const float* y, const float* z, int count, float* gamma_deg, float* c_deg) {
  polar_loop(x, y, z, count, gamma_deg);
  if (c_deg != nullptr) azimuth_loop(x, y, count, c_deg);
}

}  // namespace evenlit
