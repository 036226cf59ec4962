#pragma once

#include <string>

namespace evenlit {

/// A name from outside as a cell: in double quotes, those inside doubled (RFC 4180), and with a mark before what a
/// spreadsheet would take for a formula.
inline std::string quoted_cell(const std::string& text) {
  std::string cell = "\"";
  if (text.find_first_of("=+-@\t\r") == 0) cell += '\'';
  for (const char c : text) cell += c == '"' ? "\"\"" : std::string(1, c);
  return cell + '"';
}

}  // namespace evenlit
