#pragma once

#include "evenlit/base/length.hpp"
#include "evenlit/drawing/drawing.hpp"
#include "evenlit/drawing/intensity_diagrams.hpp"
#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

struct FloorSketch {
  DiagramText text;
  double height_m = 0;  ///< of the luminaire above the floor, > 0
  Units units = Units::imperial;
};

/// What a single luminaire, aimed straight down, throws on the floor: false colour and isolux lines in plan, the
/// luminaire in the middle, C 0 to the right. Direct light alone, of a point: E = I cos^3(gamma) / h^2.
///
/// The square reaches about as far as a twentieth of the largest illuminance, but is at least 1.5 and at most 6 heights
/// wide. The sheet is 1200 units wide; no text is smaller than 28 units.
///
/// @source ANSI/IES LS-1, "inverse-square law" and "cosine law"
Drawing floor_sketch(const IntensityDistribution& distribution, const FloorSketch& options);

}  // namespace evenlit
