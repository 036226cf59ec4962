#pragma once

#include <string_view>
#include <vector>

#include "evenlit/job/job.hpp"

namespace evenlit {

/// What a lux meter read somewhere in the room.
struct MeterReading {
  NamedPoint point;  ///< reads a `Facing`
  double lx = 0;
  Origin origin;  ///< of the value
};

inline constexpr std::size_t k_most_meter_readings = 1000;

/// Reads a table of meter readings: a line of column names, then a line a reading, as `csv_lines` has it.
///
/// Columns, in any order: `point`, twice `wall` and `distance`, `height`, `facing`, `reading`; `note` is passed over. A
/// line names a point of the job, or gives a place by tape as the job file does, then `point` is what it is called, and
/// `facing` is `up` where it is empty, `down`, or a direction on the plan in degrees. A unit in a column's name, like
/// `reading (fc)`, is that of its bare numbers. A comma between digits is a decimal comma, unless it may part
/// thousands.
///
/// @param bytes the file's content
/// @param name  for messages
/// @param job   whose points and walls are named
/// @errors every independent mistake (of very many the first hundred), in file order: columns that are missing, unknown
///         or double, unknown points and walls, parallel walls, places outside the room, values that are no length or
///         illuminance, or absurd; no readings at all
Result<std::vector<MeterReading>> read_meter_readings(std::string_view bytes, std::string_view name, const Job& job);

}  // namespace evenlit
