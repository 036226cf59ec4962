#pragma once

#include <functional>

namespace evenlit {

/// Calls work(i) once for every i in 0 ... count - 1, on as many threads as there are. Each call must touch only what
/// is its own, so that results do not depend on the number of threads.
void parallel_for(int count, const std::function<void(int)>& work);

}  // namespace evenlit
