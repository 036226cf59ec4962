#pragma once

#include "evenlit/view/display.hpp"
#include "json_values.hpp"

namespace evenlit {

/// Red, green and blue.
Json rgb_json(const Eigen::Vector3d& values);

/// How luminances are shown, as numbers of `displayed`.
Json exposure_json(const Exposure& exposure);

}  // namespace evenlit
