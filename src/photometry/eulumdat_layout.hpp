#pragma once

#include <optional>

#include "eulumdat_header.hpp"
#include "eulumdat_numbers.hpp"

namespace evenlit {

/// How the numbers after the direct ratios divide into C angles, vertical angles and intensities.
struct EulumdatLayout {
  std::size_t listed = 0;       ///< C angles
  std::size_t verticals = 0;    ///< vertical angles
  std::size_t planes = 0;       ///< in the table
  bool has_all_planes = false;  ///< though symmetry would save some

  std::size_t intensities() const { return planes * verticals; }
  std::size_t first_intensity() const { return listed + verticals; }
  std::size_t size() const { return first_intensity() + intensities(); }
};

/// The most numbers that any layout takes, and one more to show that there are too many.
std::size_t most_numbers(const EulumdatHeader& header);

/// How many of the full circle's planes a file stores; empty where their number does not fit the symmetry.
///
/// @source plane counts of open-source readers, in agreement; they follow from the symmetry
std::optional<std::size_t> stored_planes(int symmetry, std::size_t planes);

/// The layout that the header declares, or, where only that fits the count of numbers, one of those that are met: all
/// planes stored in spite of a symmetry, or a list of the stored planes' angles only.
///
/// @errors fewer numbers than any layout needs, a text that is no number, a count that only another symmetry explains
Result<EulumdatLayout> layout_of(const Source& source, const EulumdatHeader& header, const EulumdatNumbers& numbers,
                                 Problems& warnings);

}  // namespace evenlit
