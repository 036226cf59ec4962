#include "evenlit/base/half.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace evenlit;

namespace {

constexpr std::uint16_t k_infinity = 0x7C00;

/// By the definition of binary16: sign, five bits of exponent with bias 15, ten of fraction.
float value_of(std::uint16_t bits) {
  const int exponent = bits >> 10 & 0x1F;
  const int fraction = bits & 0x3FF;
  const float size = exponent == 0 ? std::ldexp(static_cast<float>(fraction), -24)
                                   : std::ldexp(static_cast<float>(1024 + fraction), exponent - 25);
  return (bits & 0x8000) != 0 ? -size : size;
}

}  // namespace

TEST_CASE("half: every half comes back as it was", "[base][exact]") {
  for (std::uint16_t bits = 0; bits < k_infinity; ++bits) {
    REQUIRE(half_bits(value_of(bits)) == bits);
    const auto negative = static_cast<std::uint16_t>(bits | 0x8000U);
    REQUIRE(half_bits(value_of(negative)) == negative);
  }
}

// Floats hold the middle of any two neighbours exactly.
TEST_CASE("half: between two neighbours the nearer is taken, in the middle the even one", "[base][exact]") {
  for (std::uint16_t bits = 0; bits + 1 < k_infinity; ++bits) {
    const auto next = static_cast<std::uint16_t>(bits + 1);
    const float middle = (value_of(bits) + value_of(next)) / 2;
    REQUIRE(half_bits(middle) == (bits % 2 == 0 ? bits : next));
    REQUIRE(half_bits(std::nextafter(middle, 0.0F)) == bits);
    REQUIRE(half_bits(std::nextafter(middle, 1e6F)) == next);
  }
}

TEST_CASE("half: what is too large is the largest", "[base][exact]") {
  for (const float value : {65504.0F, 65505.0F, 65520.0F, 1e6F, 3e38F, INFINITY}) {
    CHECK(half_bits(value) == 0x7BFF);
    CHECK(half_bits(-value) == 0xFBFF);
  }
  CHECK(half_bits(1e-30F) == 0);
}
