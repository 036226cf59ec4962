#pragma once

#include <cstddef>

namespace evenlit {

// What the readers take from a file. Real files stay far below; what is above is damage, and must neither take memory
// nor make a product overflow.

inline constexpr double k_largest_number = 1e9;            ///< of any kind, in the file's or in SI units
inline constexpr int k_most_angles = 10'000;               ///< vertical, horizontal or of tilt
inline constexpr std::size_t k_most_candelas = 4'000'000;  ///< 0.1 degree over a quarter of the sphere has 0.8 million
inline constexpr std::size_t k_most_lines_before_tilt = 10'000;  ///< in which a TILT= line is looked for

}  // namespace evenlit
