#include "evenlit/placing/hole_check.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "evenlit/base/length.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Kind = Obstacle::Kind;

constexpr double k_infinity = std::numeric_limits<double>::infinity();

const CanType& type_of(const Job& job, const Can& can) {
  return *std::ranges::find(job.can_types, can.type, &CanType::name);
}

bool is_above(Kind kind) { return kind == Kind::framing || kind == Kind::keep_out; }

/// The first thing that a hole of that radius touches when it moves that way, of all or of what overlaps it there.
SideGap side_gap(const std::vector<Obstacle>& obstacles, const Vector2d& centre_m, double radius_m,
                 const Vector2d& toward) {
  SideGap nearest{toward, k_infinity, {}};
  for (const Obstacle& obstacle : obstacles) {
    if (!is_above(obstacle.kind) && obstacle.kind != Kind::wall) continue;
    const RoundedHull reach(obstacle.shape.corners_m(), obstacle.shape.radius_m() + radius_m);
    const auto span = reach.span_on({centre_m, toward});
    // What it overlaps already is on the side where more of it is.
    if (!span || (*span)[0] + (*span)[1] <= 0 || (*span)[0] >= nearest.gap_m) continue;
    nearest.gap_m = (*span)[0];
    nearest.name = obstacle.name;
  }
  return nearest;
}

double probe_clear_m(const std::vector<Obstacle>& obstacles, const Vector2d& centre_m) {
  double clear_m = k_infinity;
  for (const Obstacle& obstacle : obstacles) {
    if (is_above(obstacle.kind)) clear_m = std::min(clear_m, obstacle.shape.distance_m(centre_m));
  }
  return std::max(clear_m, 0.0);
}

/// The nearest window on each side of a can on a line through it.
std::vector<Move> moves_along(const CeilingMap& map, const Vector2d& centre_m, const Vector2d& along) {
  std::vector<Move> moves;
  const std::vector<Span> windows = map.windows({centre_m, along});
  const auto ahead = std::ranges::find_if(windows, [](const Span& window) { return window[0] >= 0; });
  if (ahead != windows.begin()) {
    const Span& behind = *(ahead - 1);
    moves.push_back({-along, {-behind[1], -behind[0]}});
  }
  if (ahead != windows.end()) moves.push_back({along, *ahead});
  return moves;
}

double widest_m(const std::vector<Span>& spans) {
  double widest = 0;
  for (const Span& span : spans) widest = std::max(widest, span[1] - span[0]);
  return widest;
}

double widest_bay_m(const Job& job, const std::vector<Obstacle>& obstacles, const Line& across) {
  std::vector<Span> blocked;
  for (const Obstacle& obstacle : obstacles) {
    if (obstacle.kind != Kind::framing) continue;
    if (const auto span = obstacle.shape.span_on(across)) blocked.push_back(*span);
  }
  return widest_m(without(spans_within(job.room.corners_m, across), std::move(blocked)));
}

std::vector<Shortfall> shortfalls(const Job& job, const CeilingMap& map, const std::vector<Obstacle>& obstacles,
                                  const Vector2d& centre_m) {
  const Vector2d along = map.joists_at(centre_m);
  const Shortfall bay{Shortfall::What::bay, widest_bay_m(job, obstacles, {centre_m, left_of(along)}),
                      map.needed_m(centre_m, left_of(along))};
  const Shortfall room{Shortfall::What::room, widest_m(spans_within(job.room.corners_m, {centre_m, along})),
                       map.needed_m(centre_m, along)};
  std::vector<Shortfall> shortfalls;
  for (const Shortfall& each : {bay, room}) {
    if (each.has_m < each.needs_m - k_touch_m) shortfalls.push_back(each);
  }
  return shortfalls;
}

/// A can of the job as others find it, as it lies by a map.
std::vector<Obstacle> body_of(const Job& job, int can, const Vector2d& centre_m, const CeilingMap& map) {
  return obstacles_of(type_of(job, job.cans[static_cast<std::size_t>(can)]), fmt::format("can {}", can + 1), centre_m,
                      map.lie_at(centre_m));
}

/// Checks a job's cans, each among the others.
class Checker {
 public:
  explicit Checker(const Job& job) : job_(job), framing_(framing(job)), fixed_(fixed_obstacles(job, framing_)) {
    for (std::size_t i = 0; i < job.cans.size(); ++i) {
      const Can& can = job.cans[i];
      if (!needs_hole(job, can)) {
        check_.without_hole.push_back(static_cast<int>(i));
        continue;
      }
      const CanType& type = type_of(job, can);
      const auto map = maps_.try_emplace(&type, job_, framing_, type, fixed_).first;
      const Vector2d centre = plan_position(job.room, can).value();
      check_.holes.push_back({.can = static_cast<int>(i), .centre_m = centre});
      bodies_.push_back(body(check_.holes.back(), map->second));
    }
  }

  HoleCheck check() && {
    for (std::size_t i = 0; i < check_.holes.size(); ++i) fill(i);
    return std::move(check_);
  }

  std::vector<CanHits> hits() && {
    std::vector<CanHits> all;
    for (std::size_t i = 0; i < check_.holes.size(); ++i) {
      find_hits(i);
      all.push_back({check_.holes[i].can, std::move(check_.holes[i].hits)});
    }
    return all;
  }

 private:
  /// A can as it lies by a map.
  [[nodiscard]] std::vector<Obstacle> body(const CanHole& hole, const CeilingMap& map) const {
    return body_of(job_, hole.can, hole.centre_m, map);
  }

  /// What a can hits where it is, and the ceiling as it finds it with all the others in it.
  CeilingMap find_hits(std::size_t index) {
    CanHole& hole = check_.holes[index];
    CeilingMap map = maps_.at(&type_of(job_, job_.cans[static_cast<std::size_t>(hole.can)]));
    for (std::size_t other = 0; other < bodies_.size(); ++other) {
      if (other == index) continue;
      for (const Obstacle& body : bodies_[other]) map.add(body);
    }
    hole.hits = map.hits(hole.centre_m);
    if (hole.hits.empty()) bodies_[index] = body(hole, map);  // as it lies among the others, for those that come after
    return map;
  }

  void fill(std::size_t index) {
    const CeilingMap map = find_hits(index);
    CanHole& hole = check_.holes[index];
    const CanType& type = type_of(job_, job_.cans[static_cast<std::size_t>(hole.can)]);
    const Vector2d& centre = hole.centre_m;
    const Vector2d along = map.joists_at(centre);
    const Vector2d across = left_of(along);
    hole.sides = {side_gap(fixed_, centre, *type.hole_m / 2, -across),
                  side_gap(fixed_, centre, *type.hole_m / 2, across)};
    hole.probe_clear_m = probe_clear_m(fixed_, centre);
    hole.probe_needed_m = map.needed_m(centre, across) / 2;
    if (hole.hits.empty()) return;
    if (has_place(type)) hole.nearest_m = map.nearest(centre);
    if (!hole.nearest_m) {
      hole.shortfalls = shortfalls(job_, map, fixed_, centre);
      return;
    }
    for (const Vector2d& way : {along, across}) {
      for (Move& move : moves_along(map, centre, way)) hole.moves.push_back(std::move(move));
    }
  }

  /// Whether a can of the type would fit anywhere if it were the only one: found once, since a ceiling without any
  /// place takes the longest to search.
  bool has_place(const CanType& type) {
    const auto [known, is_new] = has_place_.try_emplace(&type, false);
    if (is_new) known->second = maps_.at(&type).nearest(job_.room.corners_m.front()).has_value();
    return known->second;
  }

  const Job& job_;
  Framing framing_;
  std::vector<Obstacle> fixed_;
  std::map<const CanType*, CeilingMap> maps_;
  std::map<const CanType*, bool> has_place_;
  HoleCheck check_;
  std::vector<std::vector<Obstacle>> bodies_;  ///< of each hole
};

}  // namespace

bool needs_hole(const Job& job, const Can& can) {
  return type_of(job, can).hole_m && !can.height_m && can.drop_m.value_or(0) == 0;
}

HoleCheck hole_check(const Job& job) { return Checker(job).check(); }

std::vector<CanHits> hole_hits(const Job& job) { return Checker(job).hits(); }

std::vector<int> misfits(const Job& job) {
  std::vector<int> cans;
  for (const CanHits& each : hole_hits(job)) {
    if (!each.hits.empty()) cans.push_back(each.can);
  }
  return cans;
}

std::vector<Obstacle> can_obstacles(const Job& job, const Framing& framing, const std::vector<Obstacle>& fixed,
                                    const std::vector<int>& cans) {
  std::vector<Obstacle> obstacles;
  for (const int index : cans) {
    const Can& can = job.cans[static_cast<std::size_t>(index)];
    if (!needs_hole(job, can)) continue;
    const CanType& type = type_of(job, can);
    const Vector2d centre = plan_position(job.room, can).value();
    for (Obstacle& body : body_of(job, index, centre, CeilingMap(job, framing, type, fixed))) {
      obstacles.push_back(std::move(body));
    }
  }
  return obstacles;
}

bool is_ceiling_known(const Job& job) { return !job.joists.empty() || !job.members.empty() || !job.keep_outs.empty(); }

std::string hit_text(const Hit& hit, Units units) {
  const std::string by = length_text(hit.overlap_m, units);
  if (hit.part == Hit::Part::bars) return fmt::format("its bay is {} off the widths that its bars can use", by);
  const std::string_view part = hit.part == Hit::Part::hole ? "hole" : "housing";
  switch (hit.kind) {
    case Kind::wall:
      return fmt::format("its {} is {} too near to the {} wall", part, by, hit.name);
    case Kind::framing:
    case Kind::keep_out:
    case Kind::box:
      return fmt::format("its {} is {} too near to the {}", part, by, hit.name);
    case Kind::can:
      break;
  }
  return fmt::format("its {} is {} too near to {}", part, by, hit.name);
}

Problems hole_warnings(const Job& job) {
  Problems warnings;
  if (!is_ceiling_known(job)) return warnings;
  for (const auto& [can, hits] : hole_hits(job)) {
    if (hits.empty()) continue;
    warnings.push_back({job.cans[static_cast<std::size_t>(can)].origin.place,
                        fmt::format("can {} does not fit: {}", can + 1, hit_text(hits.front(), job.units)),
                        "evenlit holes tells where it fits"});
  }
  return warnings;
}

}  // namespace evenlit
