#include "timing.hpp"

#include <algorithm>
#include <chrono>

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
