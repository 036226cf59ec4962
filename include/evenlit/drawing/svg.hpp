#pragma once

#include <string>
#include <string_view>

#include "evenlit/drawing/drawing.hpp"

namespace evenlit {

/// The drawing as an SVG document that stands alone: sharp at any size, its text real text that can be searched and
/// copied. It may also be placed inside a page of HTML.
///
/// Each line of text is as wide as in the drawing's font, whichever font shows it. Pictures in false colour are pixels,
/// one a unit of the drawing, within their clip; other pictures are their own pixels. Points that are not finite are left out with their outline, as the
/// rasteriser does. Control characters and broken UTF-8 show as `?`.
///
/// @param title what a screen reader says of the drawing
/// @param width as CSS has it, like `7.25in`; a drawing without one fills what it is given
/// @return UTF-8; the same bytes for the same drawing: coordinates to two decimals, no time stamp
/// @source W3C Scalable Vector Graphics (SVG) 1.1, second edition; `paint-order` from SVG 2
std::string svg(const Drawing& drawing, std::string_view title, std::string_view width = "100%");

}  // namespace evenlit
