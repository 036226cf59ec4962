#include <fmt/format.h>

#include <cstdio>

#include "benches.hpp"

// Speed and accuracy as ratios: ours against a plain reference, ours against the machine's limits.
int main() {
  using namespace evenlit::bench;
  fmt::print("{}", machine_text());
  const CommandCost cost = command_cost();
  const bool photometry_agrees = photometry_bench();
  const bool direct_agrees = direct_bench();
  const bool rooms_agree = room_bench();
  stage_bench(measured_limits());
  command_bench(cost);
  if (photometry_agrees && direct_agrees && rooms_agree) return 0;
  fmt::print(stderr, "\nbench: results differ by more than the errors they state; see the lines marked FAILED\n");
  return 1;
}
