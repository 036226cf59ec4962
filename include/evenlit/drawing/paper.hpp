#pragma once

namespace evenlit {

/// Sheets for paper are drawn with so many units to the inch, so that text of 20 units is 12 points.
inline constexpr double k_paper_units_per_in = 120;

/// What prints on Letter and on A4 alike, with margins of 1/2 in or more: 7-1/4 in x 10 in.
inline constexpr double k_paper_width = 7.25 * k_paper_units_per_in;
inline constexpr double k_paper_height = 10 * k_paper_units_per_in;

}  // namespace evenlit
