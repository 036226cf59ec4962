#pragma once

#include <string>
#include <vector>

#include "evenlit/report/meter_report.hpp"

namespace evenlit {

/// Floor, ceiling, walls.
std::string surface_word(std::size_t index);

/// `12 % above`, `3 % below`, `level with`: what a ratio is to 1.
std::string off_text(double ratio);

/// What the readings say and what they cannot say: paragraphs, plain words.
std::vector<std::string> meter_verdict(const MeterFacts& facts);

}  // namespace evenlit
