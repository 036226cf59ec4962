#pragma once

#include <sstream>
#include <string>

namespace evenlit {

/// The first line that has a part; empty where none has.
inline std::string line_with(const std::string& text, const std::string& part) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.find(part) != std::string::npos) return line;
  }
  return {};
}

}  // namespace evenlit
