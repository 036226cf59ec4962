#pragma once

namespace evenlit {

/// Arc cosine of x over the square root of 1 - x, for x from 0 to 1, in arithmetic that a compiler turns into
/// vector instructions.
///
/// @source Abramowitz and Stegun, Handbook of Mathematical Functions, 4.4.46: error below 2e-8
[[gnu::always_inline]] inline float arc_over_root(float x) {
  return 1.5707963050F +
         x * (-0.2145988016F +
              x * (0.0889789874F +
                   x * (-0.0501743046F +
                        x * (0.0308918810F + x * (-0.0170881256F + x * (0.0066700901F - x * 0.0012624911F))))));
}

}  // namespace evenlit
