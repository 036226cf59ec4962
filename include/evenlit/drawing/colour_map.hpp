#pragma once

#include <array>

#include "evenlit/base/image.hpp"

namespace evenlit {

/// The false colours, dark blue over grey to yellow: cividis, made to look the same to people with and without
/// red-green colour blindness and to rise in lightness all the way, so that it also reads in a black-and-white print.
///
/// @source J. R. Nunez, C. R. Anderson, R. S. Renslow, "Optimizing colormaps with consideration for color vision
///         deficiency to enable accurate interpretation of scientific data", PLoS ONE 13(7), e0199239, 2018 (CC0);
///         the published table in 1/255ths
extern const std::array<Rgb, 256> k_cividis;

/// The colours of a change, purple for less over near-white for none to orange for more: PuOr run backwards, safe for
/// people with and without red-green colour blindness. Both ends are dark: a black-and-white print needs signs as well.
///
/// @source C. A. Brewer, M. Harrower, The Pennsylvania State University, ColorBrewer 2.0, diverging scheme PuOr in 11
///         classes (Apache-style licence); straight lines in sRGB between the classes
extern const std::array<Rgb, 256> k_purple_orange;

/// What the colours of a picture stand for.
enum class ColourMap { light, change };

const std::array<Rgb, 256>& colours(ColourMap map);

/// The colour of `fraction` of the scale of light; values outside 0...1 take the end colours.
Rgb colour_map(double fraction);

}  // namespace evenlit
