#include "evenlit/placing/around.hpp"

#include <fmt/format.h>

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "evenlit/placing/ceiling_map.hpp"
#include "evenlit/placing/plan_frame.hpp"

namespace evenlit {
namespace {

using Eigen::AlignedBox2d;
using Eigen::Vector2d;

/// Evenly on a side that runs along an axis, half of the spacing at its ends.
void add_side(std::vector<Vector2d>& places_m, const AlignedBox2d& box, int axis, double across_m, int count) {
  const double spacing_m = box.sizes()[axis] / count;
  for (int i = 0; i < count; ++i) {
    Vector2d place;
    place[axis] = box.min()[axis] + (i + 0.5) * spacing_m;
    place[1 - axis] = across_m;
    places_m.push_back(place);
  }
}

/// Cans over the sides that run along x, and over those that run along y: so many over each.
std::vector<Vector2d> places(const AlignedBox2d& box, const Eigen::Vector2i& counts, double outside_m) {
  std::vector<Vector2d> places_m;
  for (const int axis : {0, 1}) {
    if (counts[axis] == 0) continue;
    add_side(places_m, box, axis, box.min()[1 - axis] - outside_m, counts[axis]);
    add_side(places_m, box, axis, box.max()[1 - axis] + outside_m, counts[axis]);
  }
  std::ranges::stable_sort(places_m, [](const Vector2d& a, const Vector2d& b) {
    return a.y() < b.y() - k_touch_m || (std::abs(a.y() - b.y()) <= k_touch_m && a.x() < b.x());
  });
  return places_m;
}

/// The longer over the shorter of both sides' spacings.
double spacing_ratio(const AlignedBox2d& box, const Eigen::Vector2i& counts) {
  const Vector2d spacing_m = box.sizes().cwiseQuotient(counts.cast<double>());
  return spacing_m.maxCoeff() / spacing_m.minCoeff();
}

}  // namespace

std::vector<Layout> around_layouts(const Polygon& box_m, const Polygon& plan_m, int count, double outside_m) {
  if (count % 2 != 0) return {};
  const PlanFrame frame = frame_along(box_m[1] - box_m[0]);
  const AlignedBox2d box = bounds_of(frame.in(box_m));
  const int half = count / 2;
  const int long_axis = box.sizes().y() > box.sizes().x() + k_touch_m ? 1 : 0;

  std::vector<Layout> layouts;
  const auto add = [&](const std::string& name, const Eigen::Vector2i& counts) {
    Layout layout{
        .name = name, .along = frame.along, .middle_m = frame.out(Vector2d(box.center())), .is_held = {true, true}};
    for (const Vector2d& place : places(box, counts, outside_m)) {
      layout.positions_m.push_back(frame.out(place));
      const Vector2d& last = layout.positions_m.back();
      if (!is_inside(plan_m, last) || distance_to_outline(plan_m, last) < k_touch_m) return;
    }
    layout.columns = counts[0] > 0 ? counts[0] : 2;
    layout.rows = counts[1] > 0 ? counts[1] : 2;
    const Vector2d across_m = box.sizes() + Vector2d::Constant(2 * outside_m);
    for (const int axis : {0, 1}) {
      layout.spacing_m[axis] = counts[axis] > 0 ? box.sizes()[axis] / counts[axis] : across_m[axis];
    }
    layout.wall_offset_m = wall_offset_m(plan_m, frame.along, layout.positions_m);
    layouts.push_back(std::move(layout));
  };
  Eigen::Vector2i two_sides = Eigen::Vector2i::Zero();
  two_sides[long_axis] = half;
  add(fmt::format("2 long sides, {} each", half), two_sides);
  if (half < 2) return layouts;
  Eigen::Vector2i best(half - 1, 1);
  for (int columns = half - 1; columns >= 1; --columns) {
    const Eigen::Vector2i counts(columns, half - columns);
    if (spacing_ratio(box, counts) < spacing_ratio(box, best)) best = counts;
  }
  add(fmt::format("4 sides, {} and {} each", best[long_axis], best[1 - long_axis]), best);
  return layouts;
}

}  // namespace evenlit
