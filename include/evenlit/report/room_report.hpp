#pragma once

#include <string>
#include <vector>

#include "evenlit/base/result.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/photometry/photometric_file.hpp"
#include "evenlit/placing/hole_check.hpp"

namespace evenlit {

/// A job as it stands, resolved: where everything is on the plan, no light.
struct RoomFacts {
  const Job& job;
  const std::vector<PhotometricFile>& photometry;  ///< one a can type, in the job's order
  const std::vector<CanHits>& holes;               ///< of the job
};

/// For a terminal or a printer: size, finishes, cans by type and circuit, framing, what stands in the room, moods.
/// Lines of at most 80 columns, a single longer word excepted.
std::string room_text(const RoomFacts& facts, const Problems& warnings);

/// For a program that draws and edits the job: JSON (RFC 8259), UTF-8, ended by a line feed. The first keys are
/// `"format": "evenlit room"` and `"version"`. Every length to be drawn is in m, to 0.1 mm, on the plan's axes or above
/// the floor; beside it, or instead of it, stands its text as the trade reads it. Plan directions are in degrees
/// counter-clockwise from east; what does not exist is null.
///
/// Things of a list have a `number`, from 1 in the order of the file: number 3 of `cans` is the file's third [[cans]];
/// `switches` are its [[wiring.switches]]. `outline` is a polygon; of `framing` one a piece that is in the room. The
/// room's `kind` is `rectangle` where it is one along the axes and `corners` else, however its plan was measured.
///
/// `light_of_setting` has the share of their full light that a circuit's cans give on average at 0, 1 ... 100 % of its
/// dimmer, drivers included; cans on no circuit are an entry without a name, whose light is the setting itself. A
/// mood's `settings` and `levels`, both by circuit, are null where it states wishes; a level that its circuit cannot
/// give has no setting.
std::string room_json(const RoomFacts& facts, const Problems& warnings);

}  // namespace evenlit
