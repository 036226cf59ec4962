#pragma once

#include <Eigen/Geometry>
#include <optional>

#include "evenlit/base/image.hpp"
#include "evenlit/drawing/drawing.hpp"

namespace evenlit {

inline constexpr int k_widest_image_px = 16'384;

/// The drawing in pixels, edges smoothed by the exact area that a shape covers of each pixel. Colours mix as sRGB
/// values.
///
/// @param width_px of the image, 1...k_widest_image_px; the height follows the drawing's proportions, rounded up
Image rasterise(const Drawing& drawing, int width_px);

/// A picture in false colour as pixels, about one a unit of the drawing, over the upright rectangle around its clip.
struct PixelPicture {
  Eigen::AlignedBox2d box;
  Image image;  ///< its width is that of the box; its last row may reach beyond
};

/// Empty where nothing of the picture is to be seen. Outlines with points that are not finite do not count.
std::optional<PixelPicture> pixels(const FalseColour& picture);

}  // namespace evenlit
