#pragma once

#include <string>
#include <string_view>

namespace evenlit {

/// Text as it may stand in XML and HTML, in elements and between double quotes; control characters, broken UTF-8 and
/// what is no character show as `?`.
std::string markup_text(std::string_view text);

}  // namespace evenlit
