#include "timing.hpp"

#include <algorithm>
#include <chrono>
#include <ctime>

namespace evenlit::bench {

Timing timing_of(std::vector<double> seconds) {
  std::ranges::sort(seconds);
  return {seconds.front(), seconds[seconds.size() / 2]};
}

double seconds_of(const std::function<void()>& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

Cost least_cost(const std::function<void()>& work) {
  constexpr int k_runs = 3;
  constexpr double k_enough_s = 2;
  constexpr double k_long = 1e9;
  Cost least{k_long, k_long};
  double spent = 0;
  for (int run = 0; run < k_runs && spent < k_enough_s; ++run) {
    const std::clock_t start = std::clock();
    const double wall_s = seconds_of(work);
    const double processor_s = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    least = {std::min(least.wall_s, wall_s), std::min(least.processor_s, processor_s)};
    spent += wall_s;
  }
  return least;
}

std::vector<Timing> alternated(int runs, const std::vector<std::function<void()>>& works) {
  std::vector<std::vector<double>> seconds(works.size());
  for (int run = 0; run < runs; ++run) {
    for (std::size_t k = 0; k < works.size(); ++k) seconds[k].push_back(seconds_of(works[k]));
  }
  std::vector<Timing> timings;
  for (auto& of_one : seconds) timings.push_back(timing_of(std::move(of_one)));
  return timings;
}

}  // namespace evenlit::bench
