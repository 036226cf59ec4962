#pragma once

#include <string_view>

#include "evenlit/base/result.hpp"
#include "evenlit/photometry/photometric_file.hpp"

namespace evenlit {

/// Reads an ANSI/IES LM-63 photometric data file (1986, 1991, 1995, 2002, 2019).
///
/// @param bytes the file's content
/// @param name  for messages
/// @return the luminaire, with a warning for every deviation that was put right
/// @errors what makes the data unusable or ambiguous, at its line
/// @source ANSI/IESNA LM-63-2002 (R2008), ANSI/IES LM-63-19
Result<Noted<PhotometricFile>> read_lm63(std::string_view bytes, std::string_view name);

}  // namespace evenlit
