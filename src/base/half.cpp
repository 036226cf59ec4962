#include "evenlit/base/half.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstring>

namespace evenlit {

std::uint16_t half_bits(float value) {
  constexpr float k_least_normal = 0x1p-14F;
  constexpr float k_subnormals_per_1 = 0x1p24F;
  constexpr int k_dropped = 13;                                     // bits of a float's fraction
  constexpr std::uint32_t k_exponents_apart = (127U - 15U) << 10U;  // the two biases, where a half's exponent stands
  assert(!std::isnan(value));
  const std::uint32_t sign = std::signbit(value) ? 0x8000U : 0U;
  const float size = std::min(std::abs(value), k_largest_half);
  if (size < k_least_normal) {
    return static_cast<std::uint16_t>(sign | static_cast<std::uint32_t>(std::lrint(size * k_subnormals_per_1)));
  }
  std::uint32_t bits = 0;
  std::memcpy(&bits, &size, sizeof bits);
  bits += (1U << (k_dropped - 1)) - 1 + (bits >> k_dropped & 1U);
  return static_cast<std::uint16_t>(sign | ((bits >> k_dropped) - k_exponents_apart));
}

}  // namespace evenlit
