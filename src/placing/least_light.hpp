#pragma once

#include <vector>

namespace evenlit {

/// Light at points, in whole vectors: beyond the last point there is so much that it never is the least.
using PointLight = std::vector<float>;

inline constexpr int k_vector = 16;
inline constexpr float k_never_least_lx = 1e30F;

/// `points` values followed by what fills the last vector: `fill`.
PointLight point_light(const float* values, int points, float fill);

/// Adds other light, of as many points.
void add(PointLight& light, const PointLight& other);

/// The least of a sum, point by point.
///
/// @param parts at least one, of as many points each
float least_of_sum(const std::vector<const float*>& parts, int padded_points);

/// The sum over points of (scale / (a + b)) to the power of 2^squarings; of light > 0.
float sum_of_powers(const float* a, const float* b, float scale, int squarings, int padded_points);

/// The sum of a times b, point by point.
float weighted_sum(const float* a, const float* b, int padded_points);

}  // namespace evenlit
