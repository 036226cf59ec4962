#pragma once

#include <string>
#include <vector>

#include "evenlit/placing/rules_of_thumb.hpp"

namespace evenlit {

/// What the rules of thumb would have chosen beside what the light says: a table and how each reckons. Empty without
/// rules.
std::string rules_section(const Job& job, const Comparison& comparison, const std::vector<RuleOfThumb>& rules);

}  // namespace evenlit
