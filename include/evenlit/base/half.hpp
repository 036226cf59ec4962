#pragma once

#include <cstdint>

namespace evenlit {

/// The largest half.
inline constexpr float k_largest_half = 65504;

/// The bits of the nearest half-precision number, of two that are as near the one whose last bit is 0; beyond the
/// largest that one, with its sign.
///
/// @param value a number
/// @source IEC 60559 (IEEE 754), binary16
std::uint16_t half_bits(float value);

}  // namespace evenlit
