#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "evenlit/photometry/photometric_file.hpp"
#include "source.hpp"

namespace evenlit {

/// Lines that a lamp set takes: number of lamps, type, flux, colour, colour rendering, watts.
inline constexpr std::size_t k_lines_per_lamp_set = 6;

/// The lamp sets of a file, and the flux that the intensities of the chosen one count from.
struct EulumdatLamps {
  std::vector<LampSet> sets;
  double lumens = 0;             ///< > 0
  std::string_view lumens_line;  ///< for places
};

/// Reads the sets, in either order that files have: the same line of all sets together, or set after set.
///
/// @param lines  six for each set, without blanks at their ends
/// @param chosen index of the set that the intensities are for
/// @errors lines that are no numbers where they must be, and a chosen set without a flux
/// @source published descriptions of EULUMDAT (lines 26a to 26f; the two orders from memory); a negative number of
///         lamps for absolute photometry: industry note of 14 August 2009 (read at second hand)
Result<EulumdatLamps> read_eulumdat_lamps(const Source& source, std::span<const std::string_view> lines,
                                          std::size_t chosen, Problems& warnings);

}  // namespace evenlit
