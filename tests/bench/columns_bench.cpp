#include <fmt/format.h>
#include <sys/resource.h>

#include "accuracy.hpp"
#include "benches.hpp"
#include "table.hpp"

namespace evenlit::bench {
namespace {

/// The largest resident memory of this process until now, MB.
double peak_mb() {
  constexpr double k_unit = 1024e-6;  // Linux counts ru_maxrss in KiB
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return k_unit * static_cast<double>(usage.ru_maxrss);
}

}  // namespace

void columns_bench() {
  constexpr int k_candidates = 1000;
  Case room = furnished_l();
  rehang(room, k_candidates);
  room.receivers.resize(200, room.receivers.front());
  const double before_mb = peak_mb();
  Response light;
  const Cost cost = least_cost([&] { light = response(room.scene, room.receivers, coarse_mesh(room.scene)); });
  print_table(
      fmt::format(
          "Response of L furnished to {} candidate places of one can at {} receivers, cut as at first; all threads",
          k_candidates, room.receivers.size()),
      {{"patches", "ms", "CPU ms", "us a column", "peak memory", "of this before"},
       {std::to_string(light.patches), milliseconds(cost.wall_s), milliseconds(cost.processor_s),
        fmt::format("{:.0f}", 1e6 * cost.wall_s / k_candidates), fmt::format("{:.0f} MB", peak_mb()),
        fmt::format("{:.0f} MB", before_mb)}});
}

}  // namespace evenlit::bench
