#pragma once

#include "number_stream.hpp"

namespace evenlit {

/// Reads the four records after TILT=INCLUDE and returns the candela factor of a luminaire that is aimed straight
/// down, which is the one at tilt angle 0.
///
/// @errors records that do not fit together
/// @source IES LM-63-1986, tilt records; ANSI/IES LM-63-19 annex F (read at second hand)
Result<double> read_tilt_factor(NumberStream& stream, Problems& warnings);

}  // namespace evenlit
