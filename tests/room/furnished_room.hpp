#pragma once

#include "evenlit/job/job.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit {

inline Job empty_job(const Polygon& plan_m, std::vector<std::string> walls) {
  Job job;
  job.room = {"Room", plan_m, std::move(walls), 2.5};
  return job;
}

/// 4 m x 4 m, 2.5 m high, with a block of 1 m x 1 m, 1 m high, of which no side touches a wall: x 2...3, y 0.5...1.5.
inline Job furnished_job() {
  Job job = empty_job({{0, 0}, {4, 0}, {4, 4}, {0, 4}}, {"south", "east", "north", "west"});
  Obstruction block;
  block.name = "block";
  block.from[0] = {"west", 2};
  block.from[1] = {"south", 0.5};
  block.width_m = 1;
  block.depth_m = 1;
  block.top_m = 1;
  job.obstructions = {block};
  return job;
}

inline Scene furnished_room() { return build_scene(furnished_job(), {}); }

inline Scene l_shaped_room() {
  return build_scene(
      empty_job({{0, 0}, {4, 0}, {4, 2}, {2, 2}, {2, 4}, {0, 4}}, {"south", "east", "hall", "nook", "north", "west"}),
      {});
}

}  // namespace evenlit
