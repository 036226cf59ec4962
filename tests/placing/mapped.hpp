#pragma once

#include "evenlit/placing/ceiling_map.hpp"

namespace evenlit {

/// A job with what is made of it.
struct Mapped {
  explicit Mapped(Job made)
      : job(std::move(made)),
        framing(evenlit::framing(job)),
        map(job, framing, job.can_types.front(), fixed_obstacles(job, framing)) {}
  Mapped(const Mapped&) = delete;
  Mapped& operator=(const Mapped&) = delete;

  Job job;
  Framing framing;
  CeilingMap map;
};

}  // namespace evenlit
