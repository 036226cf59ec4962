#pragma once

#include <vector>

#include "evenlit/room/scene.hpp"

namespace evenlit {

/// Floor, ceiling, walls and wall areas of a job's room, in this order, with no box in it.
std::vector<Surface> room_surfaces(const Job& job, const Ceiling& ceiling);

}  // namespace evenlit
