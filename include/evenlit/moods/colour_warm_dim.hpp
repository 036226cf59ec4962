#pragma once

#include <span>

namespace evenlit {

/// A point of the table that comes with a light that grows warmer as it is dimmed.
struct WarmDimPoint {
  double level = 0;  ///< light output as a fraction of full, 0...1
  double kelvin = 0;
};

/// The colour temperature at a level: a smooth curve through the points that rises and falls only where they do, level
/// before the first and after the last.
///
/// @param points at least one, levels ascending
/// @source M. Steffen, "A simple method for monotonic interpolation in one dimension", Astronomy and Astrophysics 239
///         (1990)
double warm_dim_kelvin(std::span<const WarmDimPoint> points, double level);

}  // namespace evenlit
