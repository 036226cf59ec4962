#pragma once

#include <array>
#include <optional>

namespace evenlit {

/// A size of copper wire that branch circuits of lighting have.
struct Wire {
  int awg = 14;               ///< American wire gauge
  double ohm_per_m = 0;       ///< direct current at 75 degrees C, solid and uncoated
  double most_breaker_a = 0;  ///< that may protect it
};

/// @source resistances: NFPA 70, National Electrical Code, chapter 9, table 8 (3.07, 1.93, 1.21 ohm per 1000 ft);
///         breakers: 240.4(D)
inline constexpr std::array<Wire, 3> k_wires{{{14, 3.07 / 304.8, 15}, {12, 1.93 / 304.8, 20}, {10, 1.21 / 304.8, 30}}};

/// @return empty for a size that is not in the table
inline std::optional<Wire> wire_of(int awg) {
  for (const Wire& wire : k_wires) {
    if (wire.awg == awg) return wire;
  }
  return std::nullopt;
}

/// What is lost on the way there and back, V.
///
/// @param run_m one way
inline double voltage_drop_v(const Wire& wire, double amperes, double run_m) {
  return 2 * wire.ohm_per_m * amperes * run_m;
}

}  // namespace evenlit
