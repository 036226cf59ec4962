#pragma once

#include <string>

namespace evenlit::bench {

/// Compiler, flags, processor and threads, one a line.
std::string machine_text();

/// What this machine can do at most on all threads, measured.
struct Limits {
  double multiply_adds_per_s = 0;  ///< single precision, fused, from registers
  double read_bytes_per_s = 0;     ///< from memory, far more than the caches hold
};
Limits measured_limits();

}  // namespace evenlit::bench
