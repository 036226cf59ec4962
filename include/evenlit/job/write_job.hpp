#pragma once

#include <string>

#include "evenlit/job/job.hpp"

namespace evenlit {

/// The job as a job file; `read_job` makes an equal job of it.
///
/// @param job one that `read_job` would accept: a simple plan, names that exist, values in range
std::string write_job(const Job& job);

}  // namespace evenlit
