#pragma once

#include <functional>
#include <vector>

namespace evenlit::bench {

/// Wall times of one piece of work, s.
struct Timing {
  double minimum_s = 0;
  double median_s = 0;

  /// How far the usual run was from the best: of the machine's rest, not of the work.
  [[nodiscard]] double spread() const { return median_s / minimum_s - 1; }
};

Timing timing_of(std::vector<double> seconds);

/// Runs all pieces of work in turn, `runs` times, so that whatever else the machine does meets them all alike.
std::vector<Timing> alternated(int runs, const std::vector<std::function<void()>>& works);

/// What one piece of work takes at least, s.
struct Cost {
  double wall_s = 0;
  double processor_s = 0;  ///< of all threads together; these wait for work busily, a little
};

/// The least of three runs, or of fewer once two seconds have gone.
Cost least_cost(const std::function<void()>& work);

/// One run, s.
double seconds_of(const std::function<void()>& work);

}  // namespace evenlit::bench
