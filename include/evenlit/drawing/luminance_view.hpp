#pragma once

#include <span>
#include <string>

#include "evenlit/drawing/drawing.hpp"
#include "evenlit/view/luminance_picture.hpp"

namespace evenlit {

/// Where the colours of luminances begin and end.
struct LuminanceScale {
  double bottom_cd_m2 = 1;  ///< > 0
  double top_cd_m2 = 10;    ///< > bottom
};

/// The scale for pictures that are looked at together: it ends at the round values, 1, 2 or 5 times powers of ten, that
/// enclose all luminances but the openings' (`luminance_range`). At its top it has a power of ten at least; what is
/// more than three below takes the first colour.
LuminanceScale luminance_scale(std::span<const LuminancePicture> pictures);

/// What an eye sees as luminances in false colours, equal steps of colour for equal ratios, with a scale in cd/m2. What
/// is darker or brighter than the scale takes the colours at its ends. The sheet is 1200 units wide.
///
/// @param picture at least a pixel
Drawing luminance_view(const LuminancePicture& picture, const LuminanceScale& scale, const std::string& title);

}  // namespace evenlit
