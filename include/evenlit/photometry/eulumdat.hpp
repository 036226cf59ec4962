#pragma once

#include <string_view>

#include "evenlit/base/result.hpp"
#include "evenlit/photometry/photometric_file.hpp"

namespace evenlit {

/// Whether a text begins as an EULUMDAT file does: a line of text, then type, symmetry and number of C planes, each
/// alone on its line; also where one or two of the numbers there are damaged, or lines are missing or too many above
/// them, so that the reader can say so. A text with a TILT= line is none.
bool is_eulumdat(std::string_view bytes);

/// Reads an EULUMDAT file (.ldt), relative or absolute.
///
/// C 0 lies across the luminaire: the file's length is the size along C 90, its width that along C 0 (common practice;
/// the format does not say). What has no width is round. Candelas are the file's values times its conversion factor
/// and the flux of the lamp set in thousands of lumens.
///
/// @param bytes    the file's content
/// @param name     for messages
/// @param lamp_set which of the file's lamp sets the candelas are for, counted from 1
/// @return the luminaire, with a warning for every deviation that was put right
/// @errors what makes the data unusable or ambiguous, at its line; a lamp set that the file does not have, or that has
///         no flux
/// @source A. W. Stockmar, "EULUMDAT - ein Leuchtendatenformat fuer den europaeischen Beleuchtungsplaner", Tagungsband
///         Licht '90, 641-644, 1990 (lines 1 to 26 read at second hand, the rest in published descriptions of the
///         format)
Result<Noted<PhotometricFile>> read_eulumdat(std::string_view bytes, std::string_view name, int lamp_set = 1);

}  // namespace evenlit
