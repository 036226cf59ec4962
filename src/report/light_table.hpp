#pragma once

#include <string>

#include "evenlit/placing/comparison.hpp"

namespace evenlit {

/// The light of each layout of a comparison, numbered from 1, and what the columns mean.
///
/// @param job whose units and currency are used
/// @param are_ceilings_known whether holes are held against more than walls and other cans
std::string light_table(const Job& job, const Comparison& comparison, bool are_ceilings_known);

}  // namespace evenlit
