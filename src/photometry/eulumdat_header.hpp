#pragma once

#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "evenlit/photometry/photometric_file.hpp"
#include "source.hpp"

namespace evenlit {

/// Numbers of lines, counted from 1.
enum EulumdatLine {
  l_type = 2,
  l_symmetry = 3,
  l_planes = 4,
  l_plane_step = 5,
  l_verticals = 6,
  l_vertical_step = 7,
  l_housing_length = 13,
  l_opening_length = 16,
  l_downward = 22,
  l_output_ratio = 23,
  l_factor = 24,
  l_tilt = 25,
  l_lamp_sets = 26
};

/// What the first 26 lines of an EULUMDAT file say.
struct EulumdatHeader {
  std::vector<std::string_view> lines;  ///< for places
  std::vector<std::pair<std::string, std::string>> keywords;
  int symmetry = 0;           ///< 0 none, 1 about the vertical, 2 to C 0-180, 3 to C 90-270, 4 to both
  std::size_t planes = 0;     ///< C planes in the full circle
  std::size_t verticals = 0;  ///< vertical angles in each
  double plane_step_deg = 0;  ///< 0: not the same everywhere
  double vertical_step_deg = 0;
  Opening opening;
  std::optional<Opening> housing;
  double downward_percent = 0;      ///< of the luminaire's flux
  double output_ratio_percent = 0;  ///< the luminaire's flux, of the lamps'
  double candela_factor = 1;        ///< > 0
  std::size_t lamp_sets = 1;

  /// @param number counted from 1
  std::string_view line(int number) const { return lines[static_cast<std::size_t>(number - 1)]; }
};

inline constexpr std::size_t k_eulumdat_header_lines = 26;

/// @param lines the first 26 of the file, without blanks at their ends; fewer where it ends before
/// @errors every line that cannot be used
/// @source Stockmar 1990, lines 1 to 26 (read at second hand)
Result<EulumdatHeader> decode_eulumdat_header(const Source& source, std::vector<std::string_view> lines,
                                              Problems& warnings);

}  // namespace evenlit
