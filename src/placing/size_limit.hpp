#pragma once

#include <cstddef>

#include "evenlit/base/result.hpp"

namespace evenlit {

/// Whether the light of many layouts fits into memory: a problem where grid points times cans are more than the largest
/// job has.
Problems size_problems(std::size_t points, std::size_t cans, const Place& place);

}  // namespace evenlit
