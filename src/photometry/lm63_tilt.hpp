#pragma once

#include "evenlit/photometry/photometric_file.hpp"
#include "number_stream.hpp"

namespace evenlit {

/// Reads the four records of tilt data, which follow TILT=INCLUDE or stand in a file of their own.
///
/// @errors records that do not fit together
/// @source IES LM-63-1986, tilt records; ANSI/IES LM-63-19 annex F (read at second hand)
Result<TiltData> read_tilt_data(NumberStream& stream, Problems& warnings);

}  // namespace evenlit
