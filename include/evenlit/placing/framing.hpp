#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/job/job.hpp"

namespace evenlit {

/// A solid piece of framing on the plan.
struct Strip {
  std::string name;
  Polygon corners_m;  ///< four, counter-clockwise
};

/// Where joists run one way.
struct JoistRun {
  Eigen::Vector2d along;  ///< unit
  Polygon area_m;         ///< no corners: the whole ceiling
};

/// The ceiling's framing as it lies on the plan.
struct Framing {
  std::vector<Strip> strips;
  std::vector<JoistRun> runs;  ///< one a series of joists
};

// A joist without an area, and a member parallel to a wall, run as far as the room does, and so also over what stands
// back from it. The jobs and rooms are such as `read_job` accepts.

/// The joists of a series.
std::vector<Strip> strips_of(const Shape& room, const Joists& joists);

Strip strip_of(const Shape& room, const Member& member);

/// Joists and single members of the job.
Framing framing(const Job& job);

/// Index of the first run that a point is in; empty where there is none.
std::optional<int> run_at(const Framing& framing, const Eigen::Vector2d& point_m);

}  // namespace evenlit
