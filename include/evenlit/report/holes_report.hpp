#pragma once

#include <string>
#include <vector>

#include "evenlit/base/result.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/placing/fan_check.hpp"
#include "evenlit/placing/hole_check.hpp"
#include "evenlit/placing/placed_can.hpp"

namespace evenlit {

/// The check of a job's holes for a terminal or a printer: one aligned table, then what does not fit and where it
/// would, fans, clearances, and what to mind before cutting. Lines of at most 80 columns, a single longer word
/// excepted.
std::string holes_text(const Job& job, const HoleCheck& check, const std::vector<FanHit>& fans,
                       const Problems& warnings);

/// The same as JSON (RFC 8259), UTF-8, ended by a line feed. The first keys are `"format": "evenlit holes"` and
/// `"version"`; lengths in m to 0.1 mm, plan directions in degrees counter-clockwise from east; what does not exist is
/// null.
std::string holes_json(const Job& job, const HoleCheck& check, const std::vector<FanHit>& fans,
                       const Problems& warnings);

/// A place for one can in a phrase: `in line with cans 1 and 4`, `moved 2-3/8" off the doubled joist`, or why there is
/// none.
std::string place_words(const Job& job, const PlacedCan& placed);

/// A place for one can for a terminal or a printer, with what to mind before cutting.
///
/// @param can index into the job's
std::string place_text(const Job& job, int can, const PlacedCan& placed, const Problems& warnings);

/// The same as JSON (RFC 8259), UTF-8, ended by a line feed. The first keys are `"format": "evenlit place"` and
/// `"version"`; lengths in m to 0.1 mm; `axis` is the one that a line decides, `line` what of it is in the room; what
/// does not exist is null.
std::string place_json(const Job& job, int can, const PlacedCan& placed, const Problems& warnings);

}  // namespace evenlit
