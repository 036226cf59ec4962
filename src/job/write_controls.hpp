#pragma once

#include <string>

#include "evenlit/job/job.hpp"

namespace evenlit {

/// The value of `dimming` of a can type.
std::string driver_text(const Driver& driver);

/// A list of pairs.
std::string table_text(const RisingTable& table);

/// [dimmers], [circuits], [moods], [energy] and [supply] of a job.
std::string controls_text(const Job& job);

}  // namespace evenlit
