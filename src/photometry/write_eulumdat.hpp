#pragma once

#include <string>

#include "evenlit/base/result.hpp"
#include "evenlit/photometry/photometric_file.hpp"

namespace evenlit {

/// The bytes of an EULUMDAT file, absolute (negative number of lamps) where the file does not know its lamps' flux. The
/// direct ratios are those of the zonal multipliers (`direct_ratio`) at room cavity ratio 5 / k.
///
/// @source as `read_eulumdat`; room indices k of the direct ratios from memory
Noted<std::string> eulumdat_bytes(const PhotometricFile& file);

}  // namespace evenlit
