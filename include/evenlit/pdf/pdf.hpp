#pragma once

#include <string>
#include <vector>

#include "evenlit/base/result.hpp"
#include "evenlit/drawing/drawing.hpp"

namespace evenlit {

/// Sizes of paper: 8-1/2 in x 11 in; 210 mm x 297 mm (ISO 216).
enum class Paper { letter, a4 };

/// Drawings as the sheets of a PDF document, each in the middle of its paper, to scale when it is printed at 100 %: its
/// text real text in the drawing font, which is embedded. Control characters and broken UTF-8 show as `?`.
///
/// @param units_per_in of the drawings on paper
/// @return the same bytes for the same drawings: no time stamp
/// @errors the library that writes it has run out of memory
/// @source ISO 32000-1, as Cairo writes it
Result<std::string> pdf(const std::vector<Drawing>& sheets, double units_per_in, Paper paper, const std::string& title);

}  // namespace evenlit
