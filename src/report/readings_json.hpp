#pragma once

#include "evenlit/field/readings_light.hpp"
#include "json_values.hpp"

namespace evenlit {

/// Adds the keys `task_areas`, `points` and `surfaces` to a report, those of which there are any.
///
/// @param per_can add to each what each can throws at full level, in the cans' order
void add_readings(Json& report, const ReadingsLight& light, bool per_can);

}  // namespace evenlit
