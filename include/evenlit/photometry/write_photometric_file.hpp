#pragma once

#include <string>
#include <string_view>

#include "evenlit/base/result.hpp"
#include "evenlit/photometry/photometric_file.hpp"

namespace evenlit {

enum class PhotometricFormat { lm63_2002, lm63_2019, eulumdat };

/// `LM-63-2002`, `LM-63-2019`, `EULUMDAT`
std::string_view name_of(PhotometricFormat format);

/// The bytes of a photometric file: lines end in CR LF, no line is longer than the oldest edition allows.
///
/// Intensities have six digits counted from the largest, angles six decimals: reading the bytes gives the same
/// distribution within half a unit of the last digit. What symmetry repeats is written once.
///
/// @return the bytes, with a warning for everything that the format has no place for
Noted<std::string> photometric_bytes(const PhotometricFile& file, PhotometricFormat format);

}  // namespace evenlit
