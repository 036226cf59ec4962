#pragma once

#include <string>

#include "evenlit/base/result.hpp"
#include "evenlit/photometry/photometric_file.hpp"
#include "lm63_version.hpp"

namespace evenlit {

/// The bytes of an LM-63 file of 2002 or 2019.
///
/// @source as `read_lm63`
Noted<std::string> lm63_bytes(const PhotometricFile& file, Lm63Version version);

}  // namespace evenlit
