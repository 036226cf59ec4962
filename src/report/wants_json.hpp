#pragma once

#include <vector>

#include "evenlit/placing/wanted.hpp"
#include "json_values.hpp"

namespace evenlit {

/// What is wanted and what there is, an object a want.
Json wants_json(const std::vector<Want>& wants);

}  // namespace evenlit
