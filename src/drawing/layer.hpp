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

/// An image in the pixels that it is painted on.
struct PlacedImage {
  Image image;
  int left = 0;
  int top = 0;
};

using Paint = std::variant<Ink, const FalseColour*, PlacedImage>;

/// An area and what it is painted with.
struct Layer {
  std::vector<Outline> outlines;
  Paint paint;
};

/// What an item paints, from below to above.
///
/// @param scale pixels a unit of the drawing
/// @return pictures in false colour point into the item
std::vector<Layer> layers_of(const DrawingItem& item, double scale);

}  // namespace evenlit
