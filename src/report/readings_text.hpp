#pragma once

#include <string>

#include "evenlit/base/length.hpp"
#include "evenlit/field/readings_light.hpp"

namespace evenlit {

/// Sections for the terminal: a table each of task areas, points and surfaces; nothing where there are none.
std::string readings_sections(const ReadingsLight& light, Units units);

}  // namespace evenlit
