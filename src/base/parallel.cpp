#include "evenlit/base/parallel.hpp"

#ifdef EVENLIT_THREADS
#include <tbb/parallel_for.h>
#endif

namespace evenlit {

void parallel_for(int count, const std::function<void(int)>& work) {
#ifdef EVENLIT_THREADS
  tbb::parallel_for(0, count, work);
#else
  for (int i = 0; i < count; ++i) work(i);
#endif
}

}  // namespace evenlit
