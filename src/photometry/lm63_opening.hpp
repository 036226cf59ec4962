#pragma once

#include <string>
#include <string_view>

#include "evenlit/photometry/photometric_file.hpp"
#include "lm63_version.hpp"

namespace evenlit {

/// The luminous opening behind the three signed sizes of the header, and what is worth a remark about it.
struct DecodedOpening {
  Opening opening;
  std::string remark;  ///< empty: a point, a line, a rectangle or a disc, written as the version has it
};

/// @param width_m, length_m, height_m as in the file: negative where the outline is round
/// @source ANSI/IESNA LM-63-2002 table 1 (read at second hand); LM-63-1995 and before from memory
DecodedOpening decode_opening(double width_m, double length_m, double height_m, Lm63Version version);

}  // namespace evenlit
