#include "sums.hpp"

#include <array>
#include <numeric>

#include "evenlit/base/vectorised.hpp"

namespace evenlit {
namespace {

constexpr int k_parts = 16;

float sum_of(const std::array<float, k_parts>& parts) { return std::accumulate(parts.begin(), parts.end(), 0.0F); }

}  // namespace

EVENLIT_VECTORISED
float sum_of(const float* values, int count) {
  std::array<float, k_parts> parts{};
  const int whole = count / k_parts * k_parts;
  for (int begin = 0; begin < whole; begin += k_parts) {
    for (int i = 0; i < k_parts; ++i) parts[i] += values[begin + i];
  }
  for (int i = whole; i < count; ++i) parts[i - whole] += values[i];
  return sum_of(parts);
}

EVENLIT_VECTORISED
float sum_of_products(const float* a, const float* b, int count) {
  std::array<float, k_parts> parts{};
  const int whole = count / k_parts * k_parts;
  for (int begin = 0; begin < whole; begin += k_parts) {
    for (int i = 0; i < k_parts; ++i) parts[i] += a[begin + i] * b[begin + i];
  }
  for (int i = whole; i < count; ++i) parts[i - whole] += a[i] * b[i];
  return sum_of(parts);
}

EVENLIT_VECTORISED
float sum_of_products(const float* a, const float* b, const float* c, int count) {
  std::array<float, k_parts> parts{};
  const int whole = count / k_parts * k_parts;
  for (int begin = 0; begin < whole; begin += k_parts) {
    for (int i = 0; i < k_parts; ++i) parts[i] += a[begin + i] * b[begin + i] * c[begin + i];
  }
  for (int i = whole; i < count; ++i) parts[i - whole] += a[i] * b[i] * c[i];
  return sum_of(parts);
}

}  // namespace evenlit
