#include "least_light.hpp"

#include <algorithm>
#include <array>
#include <numeric>

#include "evenlit/base/vectorised.hpp"

namespace evenlit {

PointLight point_light(const float* values, int points, float fill) {
  PointLight light(values, values + points);
  light.resize(static_cast<std::size_t>((points + k_vector - 1) / k_vector) * k_vector, fill);
  return light;
}

EVENLIT_VECTORISED
void add(PointLight& light, const PointLight& other) {
  for (std::size_t i = 0; i < light.size(); ++i) light[i] += other[i];
}

EVENLIT_VECTORISED
float least_of_sum(const std::vector<const float*>& parts, int padded_points) {
  std::array<float, k_vector> least{};
  least.fill(k_never_least_lx);
  for (int begin = 0; begin < padded_points; begin += k_vector) {
    std::array<float, k_vector> sum{};
    for (const float* part : parts) {
      for (int i = 0; i < k_vector; ++i) sum[i] += part[begin + i];
    }
    for (int i = 0; i < k_vector; ++i) least[i] = sum[i] < least[i] ? sum[i] : least[i];
  }
  return *std::ranges::min_element(least);
}

EVENLIT_VECTORISED
float sum_of_powers(const float* a, const float* b, float scale, int squarings, int padded_points) {
  std::array<float, k_vector> sums{};
  for (int begin = 0; begin < padded_points; begin += k_vector) {
    std::array<float, k_vector> powers{};
    for (int i = 0; i < k_vector; ++i) powers[i] = scale / (a[begin + i] + b[begin + i]);
    for (int round = 0; round < squarings; ++round) {
      for (int i = 0; i < k_vector; ++i) powers[i] *= powers[i];
    }
    for (int i = 0; i < k_vector; ++i) sums[i] += powers[i];
  }
  return std::accumulate(sums.begin(), sums.end(), 0.0F);
}

EVENLIT_VECTORISED
float weighted_sum(const float* a, const float* b, int padded_points) {
  std::array<float, k_vector> sums{};
  for (int begin = 0; begin < padded_points; begin += k_vector) {
    for (int i = 0; i < k_vector; ++i) sums[i] += a[begin + i] * b[begin + i];
  }
  return std::accumulate(sums.begin(), sums.end(), 0.0F);
}

}  // namespace evenlit
