#pragma once

#include "evenlit/base/image.hpp"

namespace evenlit {

/// A mark on a scale of colours: what a colour stands for.
struct ScaleColour {
  double lx = 0;
  Rgb colour;

  friend bool operator==(const ScaleColour&, const ScaleColour&) = default;
};

}  // namespace evenlit
