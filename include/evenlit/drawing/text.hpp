#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "evenlit/drawing/drawing.hpp"

namespace evenlit {

/// Height of a capital letter over the size of the em square, in the drawing font.
inline constexpr double k_cap_height = 0.76;

/// A text as it is set: control characters and bytes that are not UTF-8 as `?`.
std::string shown_text(std::string_view text);

/// Width of a line of text set in the drawing font at a size, kerning included.
double text_width(std::string_view text, double size, Weight weight);

/// `text`, or as much of its beginning as fits with an ellipsis; empty where not even one letter fits.
std::string elided(std::string_view text, double size, Weight weight, double width);

/// The letters as filled outlines in the drawing's coordinates. Control characters and broken UTF-8 show as `?`.
std::vector<Polyline> letter_outlines(const Text& text);

}  // namespace evenlit
