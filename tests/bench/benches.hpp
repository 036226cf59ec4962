#pragma once

#include "machine.hpp"
#include "timing.hpp"

namespace evenlit::bench {

/// Each prints its tables, and answers whether all results agree within the errors that they state.
bool photometry_bench();
bool direct_bench();
bool room_bench();

/// Where the time of one solve goes, and how near the machine's limits it is spent.
void stage_bench(const Limits& limits);

/// The built program on the first demo job, with map, CSV and JSON.
struct CommandCost {
  Timing timing;
  double peak_bytes = 0;
};

/// Runs the program 20 times. Call it before this process grows: a child's peak counts what its parent holds when it is
/// started. Ends the program when the command fails.
CommandCost command_cost();
void command_bench(const CommandCost& cost);

}  // namespace evenlit::bench
