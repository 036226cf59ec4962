#pragma once

#include <string>

namespace evenlit {

/// A name in double quotes, those in it doubled; one that a spreadsheet would take for a formula after an apostrophe.
///
/// @source RFC 4180
std::string csv_name(const std::string& name);

}  // namespace evenlit
