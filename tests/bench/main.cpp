#include <fmt/format.h>

#include <cstdio>

#include "benches.hpp"
#include "table.hpp"

// Speed, accuracy and growth of the engine; ours against references, ours against the machine's limits.
int main() {
  using namespace evenlit::bench;
  fmt::print("{}", machine_text());
  const CommandCost cost = command_cost();
  columns_bench();
  const Limits limits = measured_limits();
  print_limits(limits);
  const bool photometry_agrees = photometry_bench();
  const bool direct_agrees = direct_bench(limits);
  const std::vector<Settled> rooms = settled_rooms();
  accuracy_bench(rooms);
  convergence_bench(rooms);
  const bool references_agree = reference_bench(rooms);
  growth_bench();
  search_bench(limits);
  moods_bench(limits);
  view_bench();
  const bool displays_agree = display_bench();
  stage_bench(limits);
  command_bench(cost);
  if (photometry_agrees && direct_agrees && references_agree && displays_agree) return 0;
  fmt::print(stderr, "\nbench: results differ by more than is promised of them; see the lines marked FAILED\n");
  return 1;
}
