#pragma once

#include <string_view>

#include "evenlit/job/job.hpp"

namespace evenlit {

/// Reads a job file (TOML; its fields are described in `scenes/README.md`).
///
/// @param bytes the file's content
/// @param name  for messages
/// @errors every independent mistake (of very many the first hundred), in file order: syntax, unknown keys (with the
///         nearest known one), wrong types, lengths that are none, values out of range, self-crossing plans, unknown
///         walls and can types, cans outside the room
Result<Job> read_job(std::string_view bytes, std::string_view name);

}  // namespace evenlit
