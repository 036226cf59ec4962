#include "evenlit/placing/framing.hpp"

#include <algorithm>

#include "evenlit/placing/line.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;

/// Where the corners of a polygon lie in a direction.
Span extent(const Polygon& corners, const Vector2d& direction) {
  Span span{direction.dot(corners.front()), direction.dot(corners.front())};
  for (const Vector2d& corner : corners) {
    span[0] = std::min(span[0], direction.dot(corner));
    span[1] = std::max(span[1], direction.dot(corner));
  }
  return span;
}

Strip strip(std::string name, const Vector2d& start, const Vector2d& end, double thickness_m) {
  const Vector2d half = thickness_m / 2 * left_of((end - start).normalized());
  return {std::move(name), {start - half, end - half, end + half, start + half}};
}

/// A point on the line that is parallel to a wall.
Vector2d point_beside(const Shape& room, const Taped& taped) {
  const int wall = wall_index(room, taped.wall).value();
  return room.corners_m[static_cast<std::size_t>(wall)] + taped.distance_m * left_of(along_wall(room, wall));
}

Vector2d direction_of(const Shape& room, std::string_view wall) {
  return along_wall(room, wall_index(room, wall).value());
}

/// The strip along a line through the whole room.
Strip through_room(const Shape& room, std::string name, const Taped& taped, double thickness_m) {
  const Vector2d along = direction_of(room, taped.wall);
  const Vector2d point = point_beside(room, taped);
  const auto [from, to] = extent(room.corners_m, along);
  const double station = along.dot(point);
  return strip(std::move(name), point + (from - station) * along, point + (to - station) * along, thickness_m);
}

Polygon corners_of_area(const Shape& room, const PlanArea& area) {
  if (const auto* corners = std::get_if<Polygon>(&area)) return *corners;
  return corners_of(room, std::get<TapedRectangle>(area));
}

}  // namespace

std::vector<Strip> strips_of(const Shape& room, const Joists& joists) {
  const Vector2d along = direction_of(room, joists.parallel_to);
  const Polygon area = joists.area ? corners_of_area(room, *joists.area) : Polygon{};
  const double wall_m = left_of(along).dot(point_beside(room, {joists.parallel_to, 0}));
  const double reach_m =
      extent(area.empty() ? room.corners_m : area, left_of(along))[1] - wall_m + joists.thickness_m / 2;
  std::vector<Strip> strips;
  for (int i = 0; joists.first_m + i * joists.spacing_m <= reach_m; ++i) {
    const Taped taped{joists.parallel_to, joists.first_m + i * joists.spacing_m};
    if (area.empty()) {
      strips.push_back(through_room(room, "joist", taped, joists.thickness_m));
      continue;
    }
    const Vector2d point = point_beside(room, taped);
    for (const auto& [from, to] : spans_within(area, {point, along})) {
      strips.push_back(strip("joist", point + from * along, point + to * along, joists.thickness_m));
    }
  }
  return strips;
}

Strip strip_of(const Shape& room, const Member& member) {
  if (const auto* taped = std::get_if<Taped>(&member.line)) {
    return through_room(room, member.name, *taped, member.thickness_m);
  }
  const auto& ends = std::get<TapedLine>(member.line);
  return strip(member.name, plan_position(room, ends.start).value(), plan_position(room, ends.end).value(),
               member.thickness_m);
}

Framing framing(const Job& job) {
  Framing framing;
  for (const Joists& joists : job.joists) {
    framing.runs.push_back({direction_of(job.room, joists.parallel_to),
                            joists.area ? corners_of_area(job.room, *joists.area) : Polygon{}});
    for (Strip& strip : strips_of(job.room, joists)) framing.strips.push_back(std::move(strip));
  }
  for (const Member& member : job.members) framing.strips.push_back(strip_of(job.room, member));
  return framing;
}

std::optional<int> run_at(const Framing& framing, const Eigen::Vector2d& point_m) {
  const auto found = std::ranges::find_if(
      framing.runs, [&](const JoistRun& run) { return run.area_m.empty() || is_inside(run.area_m, point_m); });
  if (found == framing.runs.end()) return std::nullopt;
  return static_cast<int>(found - framing.runs.begin());
}

}  // namespace evenlit
