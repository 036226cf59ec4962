#pragma once

#include <string>
#include <string_view>

#include "evenlit/base/result.hpp"
#include "evenlit/photometry/photometric_summary.hpp"

namespace evenlit {

/// What a photometric file says and what follows from it, as plain text for a terminal or a printer: lines of at most
/// 100 columns (a longer file name in a warning excepted), both systems of units, three significant digits at most.
///
/// @param summary  of the file
/// @param warnings of its reading
/// @param name     of the file, to head the report
std::string photometric_report(const PhotometricFile& file, const PhotometricSummary& summary, const Problems& warnings,
                               std::string_view name);

}  // namespace evenlit
