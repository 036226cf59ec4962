#include "commands.hpp"

#include <cstdio>

namespace evenlit {

int refused(const std::string& text, ExitStatus status) {
  std::fputs(text.c_str(), stderr);
  return status;
}

int shown(const std::string& text) {
  std::fputs(text.c_str(), stdout);
  return k_done;
}

}  // namespace evenlit
