#pragma once

#include <variant>
#include <vector>

#include "evenlit/drawing/drawing.hpp"

namespace evenlit {

/// An outline in pixels, finite.
struct Outline {
  Polyline points;
  double top = 0;
  double bottom = 0;
};

/// An area and what it is painted with.
struct Layer {
  std::vector<Outline> outlines;
  std::variant<Ink, const FalseColour*> paint;
};

/// What an item paints, from below to above.
///
/// @param scale pixels a unit of the drawing
/// @return pictures point into the item
std::vector<Layer> layers_of(const DrawingItem& item, double scale);

}  // namespace evenlit
