#pragma once

#include <string>
#include <vector>

namespace evenlit::bench {

/// Prints a title and rows in aligned columns, the first to the left, the others to the right. The first row heads the
/// columns.
void print_table(const std::string& title, const std::vector<std::vector<std::string>>& rows);

}  // namespace evenlit::bench
