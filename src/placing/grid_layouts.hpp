#pragma once

#include <string>

namespace evenlit {

/// What a grid of cans is called.
std::string grid_name(int rows, int columns);

}  // namespace evenlit
