#pragma once

#include <string>

#include "evenlit/wiring/shopping_list.hpp"

namespace evenlit {

/// A job with its cables.
struct WiredJob {
  std::string name;  ///< tells it from another
  Job job;
  TakeOff take_off;
  ShoppingList list;
};

/// @param job with [wiring]
/// @param scene of the job
WiredJob wired_job(std::string name, const Job& job, const Scene& scene);

}  // namespace evenlit
