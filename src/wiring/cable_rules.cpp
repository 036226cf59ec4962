#include "evenlit/wiring/cable_rules.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/base/length.hpp"

namespace evenlit {
namespace {

/// So much less than a limit is the limit: lengths in inches are not exact in metres.
constexpr double k_rounding_m = 1e-9;

}  // namespace

double cable_hole_m(const CableKind& cable) { return (cable.awg == 10 ? 1 : 0.75) * k_metres_per_inch; }

JoistHole joist_hole(double depth_m, double hole_m) {
  constexpr double k_wood_m = 2 * k_metres_per_inch;
  constexpr double k_unguarded_m = 1.25 * k_metres_per_inch;
  JoistHole hole{.hole_m = hole_m, .most_hole_m = depth_m / 3, .edge_m = (depth_m - hole_m) / 2};
  hole.is_allowed = hole_m <= hole.most_hole_m + k_rounding_m && hole.edge_m >= k_wood_m - k_rounding_m;
  hole.needs_plate = hole.edge_m < k_unguarded_m - k_rounding_m;
  return hole;
}

int staples(double length_m) {
  constexpr double k_near_boxes_m = 24 * k_metres_per_inch;
  constexpr double k_apart_m = 54 * k_metres_per_inch;
  return 1 + static_cast<int>(std::ceil(std::max(0.0, length_m - k_near_boxes_m - k_rounding_m) / k_apart_m));
}

double conductor_volume_in3(int awg) {
  switch (awg) {
    case 14:
      return 2;
    case 12:
      return 2.25;
    default:
      return 2.5;
  }
}

BoxFill box_fill(const std::vector<CableKind>& cables, int devices, const std::optional<double>& box_in3) {
  constexpr int k_counted_as_one = 4;
  BoxFill fill{.devices = 2 * devices, .box_in3 = box_in3.value_or(0)};
  if (cables.empty()) return fill;
  for (const CableKind& cable : cables) fill.conductors += cable.insulated;
  fill.grounds = 1 + 0.25 * std::max(0, static_cast<int>(cables.size()) - k_counted_as_one);
  fill.needed_in3 =
      (fill.conductors + fill.clamps + fill.devices + fill.grounds) * conductor_volume_in3(cables.front().awg);
  return fill;
}

}  // namespace evenlit
