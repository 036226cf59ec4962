#pragma once

// What most files of evenlit include, parsed once: `scripts/wasm` includes this before every file.

#include "wasm_ranges.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <Eigen/Dense>
#include <array>
#include <cmath>
#include <map>
#include <numeric>
#include <optional>
#include <span>
#include <string>
#include <tl/expected.hpp>
#include <variant>
#include <vector>
