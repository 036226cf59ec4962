#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "evenlit/base/length.hpp"
#include "evenlit/base/result.hpp"

namespace evenlit {

// What the reports for a terminal have in common.

inline constexpr int k_columns = 80;  ///< of running text

/// A line of its own after an empty one.
std::string heading(std::string_view text);

/// A line of a name and one or two values, aligned at their ends.
std::string row(std::string_view name, std::string_view value, std::string_view second = {});

/// Words filled into indented lines.
std::string paragraph(std::string_view text);

/// `236 ft2`, `21.9 m2`
std::string area_text(double area_m2, Units units);

/// `1`, `1 and 2`, `1, 2 and 5`
std::string listed(const std::vector<std::string>& items);

/// Every warning with its file and line, under a heading; empty where there is none.
std::string warning_section(const Problems& warnings);

}  // namespace evenlit
