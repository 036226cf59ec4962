#pragma once

#include <string>
#include <string_view>

#include "evenlit/base/result.hpp"
#include "evenlit/photometry/photometric_summary.hpp"

namespace evenlit {

/// What a photometric file says and what follows from it, as JSON (RFC 8259), UTF-8, ended by a line feed. The first
/// keys are `"format": "evenlit photometry"` and `"version"`; every number has its unit in its key (none for ratios);
/// what does not exist is null; keys keep their order. Numbers are rounded to six significant digits, lengths to 0.1
/// mm.
///
/// `distribution` is the table as the file has it, without its tilt factor, which all other figures contain: `candela`
/// has an array for each entry of `c_deg`, with a number for each of `gamma_deg`.
///
/// @param summary  of the file
/// @param warnings of its reading
/// @param name     of the file
std::string photometric_json(const PhotometricFile& file, const PhotometricSummary& summary, const Problems& warnings,
                             std::string_view name);

}  // namespace evenlit
