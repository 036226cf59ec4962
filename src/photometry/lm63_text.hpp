#pragma once

#include <string_view>

#include "lm63_keywords.hpp"
#include "lm63_tilt.hpp"
#include "lm63_version.hpp"
#include "source.hpp"

namespace evenlit {

/// The part of a file up to and with its TILT= line.
struct Lm63Text {
  Lm63Version version = Lm63Version::v1986;
  Keywords keywords;
  TiltLine tilt_line;
  std::string_view numbers;  ///< the rest of the file
};

/// @errors an empty, too large, binary or UTF-16 file; no TILT= line
Result<Lm63Text> read_lm63_text(const Source& source, Problems& warnings);

}  // namespace evenlit
