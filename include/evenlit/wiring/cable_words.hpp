#pragma once

#include <string>

#include "evenlit/base/length.hpp"
#include "evenlit/job/wiring.hpp"

namespace evenlit {

/// `14/2`
std::string cable_word(const CableKind& cable);

/// `14/2 cable with ground`
std::string cable_name(const CableKind& cable);

/// To the inch or the centimetre: a cable is cut no finer.
std::string cable_length_text(double metres, Units units);

}  // namespace evenlit
