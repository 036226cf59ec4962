#include "evenlit/placing/moved_cans.hpp"

#include <algorithm>

#include "evenlit/base/length.hpp"

namespace evenlit {

std::vector<MovedCan> moved_cans(const Job& before, const Job& now) {
  constexpr double k_shown_m = k_metres_per_inch / 32;
  const HoleCheck check = hole_check(before);
  std::vector<MovedCan> moved;
  for (std::size_t i = 0; i < now.cans.size(); ++i) {
    const Eigen::Vector2d was_m = plan_position(before.room, before.cans[i]).value();
    if ((plan_position(now.room, now.cans[i]).value() - was_m).norm() <= k_shown_m) continue;
    const int can = static_cast<int>(i);
    const auto hole = std::ranges::find(check.holes, can, &CanHole::can);
    moved.push_back({can, was_m, hole != check.holes.end() ? hole->hits : std::vector<Hit>{}});
  }
  return moved;
}

}  // namespace evenlit
