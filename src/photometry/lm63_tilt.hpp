#pragma once

#include "evenlit/photometry/photometric_file.hpp"
#include "lm63_version.hpp"
#include "number_stream.hpp"

namespace evenlit {

/// Where the tilt data are.
enum class Tilt { none, included, separate };

/// What a TILT= line says.
struct TiltLine {
  Tilt tilt = Tilt::none;
  std::string_view file;  ///< name of the separate file, a part of the source
};

/// Whether a line is a TILT= line, written in any of the ways that are met.
bool is_tilt_line(std::string_view line);

/// @param line a TILT= line
/// @errors one that names nothing
Result<TiltLine> read_tilt_line(const Source& source, std::string_view line, Lm63Version version, Problems& warnings);

/// Reads the four records of tilt data, which follow TILT=INCLUDE or stand in a file of their own.
///
/// @errors records that do not fit together
/// @source IES LM-63-1986, tilt records; ANSI/IES LM-63-19 annex F (read at second hand)
Result<TiltData> read_tilt_data(NumberStream& stream, Problems& warnings);

}  // namespace evenlit
