#include "csv_name.hpp"

namespace evenlit {

std::string csv_name(const std::string& name) {
  std::string cell = "\"";
  if (name.find_first_of("=+-@\t\r") == 0) cell += '\'';
  for (const char c : name) {
    if (c == '"') cell += '"';
    cell += c;
  }
  return cell + '"';
}

}  // namespace evenlit
