#pragma once

#include <string>

#include "evenlit/base/result.hpp"
#include "evenlit/moods/room_moods.hpp"

namespace evenlit {

/// The room in its moods for a terminal or a printer: where the dimmers are set and how bright that is to a meter and
/// to the eye, the light on the work plane, task areas and walls, what wishes have and what would help those that are
/// missed, colour, power and cost, loads of dimmers and of the branch circuit, and what eyes at the seats meet. Lines
/// of at most 80 columns, a single longer word excepted.
std::string moods_text(const Job& job, const RoomMoods& moods, const Problems& warnings);

/// The same as JSON (RFC 8259), UTF-8, ended by a line feed. The first keys are `"format": "evenlit moods"` and
/// `"version"`; every number has its unit in its key (none for ratios); what does not exist is null. Calculated numbers
/// are rounded to six significant digits.
std::string moods_json(const Job& job, const RoomMoods& moods, const Problems& warnings);

}  // namespace evenlit
