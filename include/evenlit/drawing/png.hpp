#pragma once

#include <string>

#include "evenlit/base/image.hpp"

namespace evenlit {

/// The bytes of a PNG file, 8-bit RGB; no time stamp, so the same image gives the same bytes.
///
/// @source ISO/IEC 15948:2004
std::string png(const Image& image);

}  // namespace evenlit
