#include "evenlit/placing/feature.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "evenlit/placing/ceiling_map.hpp"
#include "evenlit/placing/framing.hpp"
#include "evenlit/placing/plan_frame.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;

template <class Part>
const Part* named(const std::vector<Part>& parts, std::string_view name) {
  const auto found = std::ranges::find(parts, name, &Part::name);
  return found == parts.end() ? nullptr : &*found;
}

Vector2d middle_of(const Shape& room, const KeepOut& keep_out) {
  if (const auto* circle = std::get_if<TapedCircle>(&keep_out.shape)) return *plan_position(room, circle->from);
  if (const auto* rectangle = std::get_if<TapedRectangle>(&keep_out.shape)) return *plan_centre(room, *rectangle);
  return bounds_of(std::get<Polygon>(keep_out.shape)).center();
}

Feature feature_of(const Shape& room, const Member& member) {
  const Polygon corners = strip_of(room, member).corners_m;
  const Vector2d side = corners[1] - corners[0];
  const Vector2d end = corners[2] - corners[1];
  return {(corners[0] + corners[2]) / 2, left_of((side.norm() > end.norm() ? side : end).normalized())};
}

Feature feature_of(const Shape& room, const WallArea& area) {
  const int wall = *wall_index(room, area.wall);
  const int size = static_cast<int>(room.corners_m.size());
  const Vector2d along = along_wall(room, wall);
  const Vector2d& start = room.corners_m[static_cast<std::size_t>(wall)];
  const Vector2d& end = room.corners_m[static_cast<std::size_t>((wall + 1) % size)];
  const double middle_m = area.from.distance_m + area.width_m / 2;
  const bool is_from_start = wall_index(room, area.from.wall) == (wall + size - 1) % size;
  return {is_from_start ? Vector2d(start + middle_m * along) : Vector2d(end - middle_m * along), along};
}

}  // namespace

std::optional<Feature> feature(const Job& job, std::string_view name) {
  if (const auto* box = named(job.obstructions, name)) return Feature{*plan_centre(job.room, *box), {}};
  if (const auto* keep_out = named(job.keep_outs, name)) return Feature{middle_of(job.room, *keep_out), {}};
  if (const auto* member = named(job.members, name)) return feature_of(job.room, *member);
  if (const auto* area = named(job.wall_areas, name)) return feature_of(job.room, *area);
  return std::nullopt;
}

std::vector<std::string_view> feature_names(const Job& job) {
  std::vector<std::string_view> names;
  const auto add = [&](const auto& parts) {
    for (const auto& part : parts) names.emplace_back(part.name);
  };
  add(job.obstructions);
  add(job.keep_outs);
  add(job.members);
  add(job.wall_areas);
  return names;
}

std::array<bool, 2> held_axes(const Feature& feature, const Vector2d& along) {
  if (!feature.only_along) return {true, true};
  const bool is_along_rows =
      std::abs(feature.only_along->dot(along)) >= std::abs(feature.only_along->dot(left_of(along)));
  return {is_along_rows, !is_along_rows};
}

std::optional<Layout> centred_on(const Feature& feature, Layout layout, const Polygon& plan_m) {
  const PlanFrame frame{layout.along};
  Vector2d shift = frame.in(feature.middle_m) - bounds_of(frame.in(layout.positions_m)).center();
  const std::array<bool, 2> held = held_axes(feature, layout.along);
  for (const int axis : {0, 1}) {
    if (!held[static_cast<std::size_t>(axis)]) shift[axis] = 0;
  }
  const Vector2d by_m = frame.out(shift);
  for (Vector2d& place : layout.positions_m) {
    place += by_m;
    if (!is_inside(plan_m, place) || distance_to_outline(plan_m, place) < k_touch_m) return std::nullopt;
  }
  for (LayoutPart& part : layout.parts) part.centre_m += by_m;
  layout.middle_m = frame.out(Vector2d(bounds_of(frame.in(layout.positions_m)).center()));
  layout.is_held = held;
  layout.wall_offset_m = wall_offset_m(plan_m, layout.along, layout.positions_m);
  return layout;
}

}  // namespace evenlit
