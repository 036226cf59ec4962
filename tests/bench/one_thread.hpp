#pragma once

#ifdef EVENLIT_THREADS
#include <tbb/global_control.h>
#endif

namespace evenlit::bench {

/// While it lives, the engine works on one thread.
class OneThread {
 public:
  OneThread() {}  // not trivial: an object that is there to live is used

 private:
#ifdef EVENLIT_THREADS
  tbb::global_control limit_{tbb::global_control::max_allowed_parallelism, 1};
#endif
};

}  // namespace evenlit::bench
