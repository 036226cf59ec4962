#include "table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

namespace evenlit::bench {

void print_table(const std::string& title, const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths(rows.front().size());
  for (const auto& row : rows) {
    for (std::size_t k = 0; k < row.size(); ++k) widths[k] = std::max(widths[k], row[k].size());
  }
  fmt::print("\n{}\n", title);
  for (const auto& row : rows) {
    fmt::print("  {:<{}}", row[0], widths[0]);
    for (std::size_t k = 1; k < row.size(); ++k) fmt::print("  {:>{}}", row[k], widths[k]);
    fmt::print("\n");
  }
  std::fflush(stdout);
}

}  // namespace evenlit::bench
