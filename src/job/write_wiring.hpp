#pragma once

#include <string>

#include "evenlit/job/job.hpp"

namespace evenlit {

/// [wiring] of the job, where it has one.
std::string wiring_text(const Job& job);

}  // namespace evenlit
