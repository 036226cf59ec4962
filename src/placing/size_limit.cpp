#include "size_limit.hpp"

#include <fmt/format.h>

#include "evenlit/room/grid.hpp"

namespace evenlit {
namespace {

/// As many cans as a job may have.
constexpr std::size_t k_most_cans = 500;

}  // namespace

Problems size_problems(std::size_t points, std::size_t cans, const Place& place) {
  if (points * cans <= k_most_cans * k_most_grid_points) return {};
  return {{place,
           fmt::format("{} grid points and {} places for cans are more than can be compared at once", points, cans),
           "choose a wider spacing of the work plane's grid, or compare fewer counts"}};
}

}  // namespace evenlit
