#pragma once

#include <string_view>

#include "lm63_keywords.hpp"
#include "lm63_version.hpp"
#include "source.hpp"

namespace evenlit {

enum class Tilt { none, included, separate };

/// The part of a file up to and with its TILT= line.
struct Lm63Text {
  Lm63Version version = Lm63Version::v1986;
  Keywords keywords;
  Tilt tilt = Tilt::none;
  std::string_view tilt_file;  ///< name of the separate file, a part of the source
  std::string_view numbers;  ///< the rest of the file
};

/// @errors an empty, too large, binary or UTF-16 file; no TILT= line
Result<Lm63Text> read_lm63_text(const Source& source, Problems& warnings);

/// Whether a line is a TILT= line, written in any of the ways that are met.
bool is_tilt_line(std::string_view line);

}  // namespace evenlit
