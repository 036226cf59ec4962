#pragma once

#include <string>

#include "evenlit/placing/comparison.hpp"

namespace evenlit {

// What the reports of a comparison have in common.

/// `all`, `row`, `column`, `can`.
const char* part_word(PartMove::Part part);

/// A layout's name in a table, where a moved one stands below the one that it was.
std::string name_cell(const ComparedLayout& row);

/// Foot-candles or lux without their unit, no finer than the error.
std::string light_cell(double lx, double error_lx, Units units);

}  // namespace evenlit
