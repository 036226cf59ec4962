#pragma once

#include <array>
#include <csignal>

namespace evenlit {

/// While this object lives, a request to end the process (Ctrl-C, kill, a closed terminal) waits; it then takes its
/// usual course. One object at a time.
class HeldSignals {
 public:
  HeldSignals();
  ~HeldSignals();
  HeldSignals(const HeldSignals&) = delete;
  HeldSignals& operator=(const HeldSignals&) = delete;

 private:
  static constexpr std::array k_held{SIGINT, SIGTERM, SIGHUP};
  std::array<struct sigaction, k_held.size()> before_{};
};

}  // namespace evenlit
