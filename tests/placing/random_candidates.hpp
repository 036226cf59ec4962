#pragma once

#include "evenlit/placing/candidates.hpp"

namespace evenlit {

/// A room of 3 m by 2.4 m for made-up candidates.
Job random_candidates_job();

/// Made-up light of places on a raster of 0.3 m in that room, a tenth of which are taken: each place lights each of
/// some points by the inverse square of their distance, some by up to a tenth more or less.
Candidates random_candidates(unsigned seed);

}  // namespace evenlit
