#include "evenlit/wiring/wired_job.hpp"

#include <utility>

namespace evenlit {

WiredJob wired_job(std::string name, const Job& job, const Scene& scene) {
  TakeOff cables = take_off(job, scene);
  ShoppingList list = shopping_list(job, cables);
  return {std::move(name), job, std::move(cables), std::move(list)};
}

}  // namespace evenlit
