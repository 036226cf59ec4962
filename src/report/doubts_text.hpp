#pragma once

#include <string>
#include <vector>

#include "evenlit/placing/comparison.hpp"

namespace evenlit {

/// How sure the layouts are: a table of the light in the cases of doubt, then what that means for the fewest cans that
/// give what is wanted. Empty where doubts were not asked for. Layouts have the numbers of their rows, from 1.
std::string doubts_section(const Job& job, const std::vector<ComparedLayout>& rows);

/// The table alone, without what it means for a count. Empty where doubts were not asked for.
std::string doubts_table(const Job& job, const std::vector<ComparedLayout>& rows);

}  // namespace evenlit
