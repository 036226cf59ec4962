#pragma once

#include <string_view>

#include "evenlit/base/result.hpp"
#include "source.hpp"

namespace evenlit {

/// A text file without a byte-order mark and without the blanks, zero bytes and Ctrl-Z that DOS programs leave at the
/// end.
///
/// @errors an empty, too large (64 MiB), binary or UTF-16 file
Result<std::string_view> text_body(const Source& source);

}  // namespace evenlit
