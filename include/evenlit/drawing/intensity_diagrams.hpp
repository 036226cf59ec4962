#pragma once

#include <string>

#include "evenlit/drawing/drawing.hpp"
#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// What heads a diagram, UTF-8; what is too long is cut.
struct DiagramText {
  std::string title;
  std::string line;  ///< below the title: file name, lumens
};

// Both diagrams show the planes C 0 - C 180 (full line) and C 90 - C 270 (dashed), or one line where these do not
// differ by more than a line is wide, in candelas as measured, and end in the peak, the beam angle and the field angle.
// They are 1200 units wide, black and grey on white, and no text is smaller than 28 units.

/// Luminous intensity in polar coordinates: straight down is down, C 0 and C 90 are to the right. The lower half alone
/// where there is no light above the horizontal worth a line's width, the upper half alone where there is none below.
///
/// @source the customary form of CIE 121-1996 and EN 13032-2 (from memory)
Drawing polar_diagram(const IntensityDistribution& distribution, const DiagramText& text);

/// Luminous intensity over the angle from straight down, C 0 and C 90 to the right, as wide a range of angles as the
/// light has. Beam angle and field angle are dimensioned above it.
Drawing linear_diagram(const IntensityDistribution& distribution, const DiagramText& text);

}  // namespace evenlit
