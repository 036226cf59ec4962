#pragma once

#include "evenlit/base/image.hpp"
#include "evenlit/drawing/drawing.hpp"

namespace evenlit {

inline constexpr int k_widest_image_px = 16'384;

/// The drawing in pixels, edges smoothed by the exact area that a shape covers of each pixel. Colours mix as sRGB
/// values.
///
/// @param width_px of the image, 1...k_widest_image_px; the height follows the drawing's proportions, rounded up
Image rasterise(const Drawing& drawing, int width_px);

}  // namespace evenlit
