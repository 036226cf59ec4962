#pragma once

#include <string>

namespace evenlit::bench {

/// Compiler, flags, processor and threads, one a line.
std::string machine_text();

/// What this machine can do at most, on all threads but where said, measured.
struct Limits {
  double multiply_adds_per_s = 0;             ///< single precision, fused, from registers
  double one_thread_multiply_adds_per_s = 0;  ///< the same of one thread while the others rest
  double read_bytes_per_s = 0;                ///< from memory, far more than the caches hold
};
Limits measured_limits();
void print_limits(const Limits& limits);

}  // namespace evenlit::bench
