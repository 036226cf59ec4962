#pragma once

#include <optional>

#include "evenlit/placing/doubted_light.hpp"
#include "json_values.hpp"

namespace evenlit {

/// An object a case; null where doubts were not asked for.
Json doubts_json(const std::optional<LayoutDoubts>& doubts);

}  // namespace evenlit
