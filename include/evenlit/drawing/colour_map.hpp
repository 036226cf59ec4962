#pragma once

#include <array>

#include "evenlit/drawing/image.hpp"

namespace evenlit {

/// The false colours, dark blue over grey to yellow: cividis, made to look the same to people with and without
/// red-green colour blindness and to rise in lightness all the way, so that it also reads in a black-and-white print.
///
/// @source J. R. Nunez, C. R. Anderson, R. S. Renslow, "Optimizing colormaps with consideration for color vision
///         deficiency to enable accurate interpretation of scientific data", PLoS ONE 13(7), e0199239, 2018 (CC0);
///         the published table in 1/255ths
extern const std::array<Rgb, 256> k_cividis;

/// The colour of `fraction` of the scale; values outside 0...1 take the end colours.
Rgb colour_map(double fraction);

}  // namespace evenlit
