#include "evenlit/placing/ceiling_map.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "convex.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;

constexpr double k_infinity = std::numeric_limits<double>::infinity();

/// Regions are searched along a line as if they were this much smaller, so that a gap that fits exactly is not lost to
/// rounding; half of what touching allows.
constexpr double k_slack_m = k_touch_m / 2;

bool is_wood(Obstacle::Kind kind) { return kind == Obstacle::Kind::framing || kind == Obstacle::Kind::wall; }

bool is_same_direction(const Vector2d& a, const Vector2d& b) {
  constexpr double k_same_cosine = 1 - 1e-12;
  return std::abs(a.dot(b)) > k_same_cosine;
}

/// Spans divided where stations, which ascend, are inside of them.
std::vector<Span> divided(const std::vector<Span>& spans, const std::vector<double>& stations) {
  std::vector<Span> pieces;
  for (Span rest : spans) {
    for (auto at = std::ranges::upper_bound(stations, rest[0]); at != stations.end() && *at < rest[1]; ++at) {
      pieces.push_back({rest[0], *at});
      rest[0] = *at;
    }
    if (rest[0] < rest[1]) pieces.push_back(rest);
  }
  return pieces;
}

template <class Regions>
double least_distance_m(const Regions& regions, const Vector2d& point) {
  double least = k_infinity;
  for (const auto& region : regions) least = std::min(least, region.hull.distance_m(point));
  return least;
}

/// Straight pieces with their distances from a point, the nearest first.
std::vector<std::pair<double, RoundedHull::Side>> by_distance(const std::vector<RoundedHull::Side>& sides,
                                                              const Vector2d& point) {
  std::vector<std::pair<double, RoundedHull::Side>> sorted;
  for (const auto& side : sides) {
    const double station = std::clamp(side.line.station_of(point), 0.0, side.length_m);
    sorted.emplace_back((side.line.at(station) - point).norm(), side);
  }
  std::ranges::stable_sort(sorted, {}, [](const auto& each) { return each.first; });
  return sorted;
}

/// The nearest of the places that were tried and fit.
class Nearest {
 public:
  Nearest(const CeilingMap& map, const Vector2d& from) : map_(map), from_(from) {}

  /// Whether it would be the nearest so far.
  [[nodiscard]] bool is_nearer(const Vector2d& place) const { return (place - from_).norm() < distance_; }
  [[nodiscard]] double distance_m() const { return distance_; }
  [[nodiscard]] const std::optional<Vector2d>& place() const { return place_; }

  void consider(const Vector2d& place) {
    if (!is_nearer(place) || !map_.fits(place)) return;
    place_ = place;
    distance_ = (place - from_).norm();
  }

  void consider(const Line& line, const std::vector<Span>& spans) {
    for (const Span& span : spans) consider(line.at(nearest_in(span, line.station_of(from_))));
  }

 private:
  const CeilingMap& map_;
  Vector2d from_;
  std::optional<Vector2d> place_;
  double distance_ = k_infinity;
};

}  // namespace

double nearest_in(const Span& span, double station) {
  const double inset = std::min(k_touch_m, (span[1] - span[0]) / 4);
  return std::clamp(station, span[0] + inset, span[1] - inset);
}

CeilingMap::CeilingMap(const Job& job, const Framing& framing, const CanType& type,
                       const std::vector<Obstacle>& obstacles)
    : job_(job), framing_(framing), type_(type), wood_clearance_m_(type.rating == Rating::ic ? 0 : k_wood_clearance_m) {
  const auto add_lay = [&](const Vector2d& along, std::optional<int> run) {
    auto lay = std::ranges::find_if(lays_, [&](const Lay& other) { return is_same_direction(other.along, along); });
    if (lay == lays_.end()) lay = lays_.insert(lays_.end(), {along, {}, {}});
    if (run) lay->runs.push_back(*run);
  };
  const auto lies = type.housing ? type.housing->lies : Housing::Lies::along;
  const bool is_bound = lies != Housing::Lies::either;
  const auto add_lays = [&](const Vector2d& joists, std::optional<int> run) {
    if (lies != Housing::Lies::across) add_lay(joists, run);
    if (lies != Housing::Lies::along) add_lay(left_of(joists), run);
  };
  for (std::size_t i = 0; type.housing && i < framing.runs.size(); ++i) {
    add_lays(framing.runs[i].along, is_bound ? std::optional(static_cast<int>(i)) : std::nullopt);
  }
  if (lays_.empty()) add_lays(along_wall(job.room, 0), std::nullopt);
  for (const Obstacle& obstacle : obstacles) add(obstacle);
}

void CeilingMap::add(const Obstacle& obstacle) {
  const std::size_t index = obstacles_.size();
  obstacles_.push_back(obstacle);
  const Polygon& corners = obstacle.shape.corners_m();
  const double wood_m = is_wood(obstacle.kind) ? wood_clearance_m_ : 0;
  const double around_m = obstacle.shape.radius_m() + obstacle.clearance_m;
  const double hole_m = around_m + type_.hole_m.value() / 2 + (type_.housing ? 0 : wood_m);
  hole_.push_back({RoundedHull(corners, hole_m), index});
  // Above a box that reaches the ceiling there may be a housing.
  if (!type_.housing || obstacle.kind == Obstacle::Kind::box) return;
  for (Lay& lay : lays_) {
    const Polygon housing = housing_corners(*type_.housing, Vector2d::Zero(), lay.along);
    lay.regions.push_back({RoundedHull(convex_sum(corners, housing), around_m + wood_m), index});
  }
}

bool CeilingMap::may_lie(const Lay& lay, const Vector2d& centre_m) const {
  if (lay.runs.empty()) return true;
  const auto run = run_at(framing_, centre_m);
  return !run || std::ranges::find(lay.runs, *run) != lay.runs.end();
}

bool CeilingMap::fits(const Vector2d& centre_m) const {
  const auto is_held = [&](const Region& region) { return region.hull.holds(centre_m, k_touch_m); };
  if (std::ranges::any_of(hole_, is_held)) return false;
  const bool lies = std::ranges::any_of(
      lays_, [&](const Lay& lay) { return may_lie(lay, centre_m) && std::ranges::none_of(lay.regions, is_held); });
  return lies && is_place(centre_m);
}

bool CeilingMap::is_place(const Vector2d& centre_m) const {
  return is_inside(job_.room.corners_m, centre_m) && bay_misfit_m(centre_m) <= k_touch_m;
}

const CeilingMap::Lay& CeilingMap::best_lay(const Vector2d& centre_m) const {
  const Lay* best = &lays_.front();
  double best_m = -k_infinity;
  for (const Lay& lay : lays_) {
    if (!may_lie(lay, centre_m)) continue;
    const double distance_m = least_distance_m(lay.regions, centre_m);
    if (distance_m <= best_m) continue;
    best = &lay;
    best_m = distance_m;
  }
  return *best;
}

double CeilingMap::clearance_m(const Vector2d& centre_m) const {
  const double clear_m =
      std::min(least_distance_m(hole_, centre_m), least_distance_m(best_lay(centre_m).regions, centre_m));
  if (is_inside(job_.room.corners_m, centre_m)) return clear_m;
  return std::min(clear_m, -distance_to_outline(job_.room.corners_m, centre_m));
}

std::vector<Hit> CeilingMap::hits(const Vector2d& centre_m) const {
  std::vector<Hit> hits;
  const auto add = [&](const Region& region, Hit::Part part) {
    const double overlap_m = -region.hull.distance_m(centre_m);
    if (overlap_m <= k_touch_m) return;
    const Obstacle& obstacle = obstacles_[region.obstacle];
    const auto known = std::ranges::find_if(
        hits, [&](const Hit& hit) { return hit.kind == obstacle.kind && hit.name == obstacle.name; });
    if (known == hits.end()) {
      hits.push_back({part, obstacle.kind, obstacle.name, overlap_m});
    } else if (overlap_m > known->overlap_m) {
      known->part = part;
      known->overlap_m = overlap_m;
    }
  };
  for (const Region& region : hole_) add(region, Hit::Part::hole);
  for (const Region& region : best_lay(centre_m).regions) add(region, Hit::Part::housing);
  std::ranges::stable_sort(hits, std::greater{}, &Hit::overlap_m);
  const double misfit_m = bay_misfit_m(centre_m);
  if (misfit_m > k_touch_m) hits.push_back({Hit::Part::bars, Obstacle::Kind::framing, "bay", misfit_m});
  return hits;
}

Vector2d CeilingMap::lie_at(const Vector2d& centre_m) const { return best_lay(centre_m).along; }

Vector2d CeilingMap::joists_at(const Vector2d& centre_m) const {
  const auto run = run_at(framing_, centre_m);
  if (run) return framing_.runs[static_cast<std::size_t>(*run)].along;
  return framing_.runs.empty() ? along_wall(job_.room, 0) : framing_.runs.front().along;
}

double CeilingMap::bay_m(const Vector2d& centre_m) const {
  const Line across{centre_m, left_of(joists_at(centre_m))};
  double before = -k_infinity;
  double after = k_infinity;
  for (const Obstacle& obstacle : obstacles_) {
    if (!is_wood(obstacle.kind)) continue;
    const auto span = obstacle.shape.span_on(across);
    if (!span) continue;
    if ((*span)[0] < 0 && (*span)[1] > 0) return 0;
    if ((*span)[1] <= 0) before = std::max(before, (*span)[1]);
    if ((*span)[0] >= 0) after = std::min(after, (*span)[0]);
  }
  return after - before;
}

double CeilingMap::needed_m(const Vector2d& centre_m, const Vector2d& direction) const {
  const double hole_m = type_.hole_m.value() + (type_.housing ? 0 : 2 * wood_clearance_m_);
  if (!type_.housing) return hole_m;
  double least_m = k_infinity;
  for (const Lay& lay : lays_) {
    if (!may_lie(lay, centre_m)) continue;
    const double housing_m = std::abs(direction.dot(lay.along)) * type_.housing->length_m +
                             std::abs(direction.dot(left_of(lay.along))) * type_.housing->width_m;
    least_m = std::min(least_m, std::max(hole_m, housing_m + 2 * wood_clearance_m_));
  }
  return least_m;
}

bool CeilingMap::has_bay_limits() const {
  return type_.housing && (type_.housing->narrowest_bay_m || type_.housing->widest_bay_m);
}

double CeilingMap::bay_misfit_m(const Vector2d& centre_m) const {
  if (!has_bay_limits()) return 0;
  const double width_m = bay_m(centre_m);
  return std::max(type_.housing->narrowest_bay_m.value_or(0) - width_m,
                  width_m - type_.housing->widest_bay_m.value_or(k_infinity));
}

std::vector<Span> CeilingMap::free_spans(const Lay& lay, const Line& line, const std::vector<Span>& within) const {
  if (within.empty()) return {};
  const Span reach{within.front()[0], within.back()[1]};
  std::vector<Span> blocked;
  for (const auto* regions : {&hole_, &lay.regions}) {
    for (const Region& region : *regions) {
      if (!region.hull.may_meet(line, reach)) continue;
      const auto span = region.hull.span_on(line);
      if (!span || (*span)[1] - (*span)[0] <= 2 * k_slack_m) continue;
      blocked.push_back({(*span)[0] + k_slack_m, (*span)[1] - k_slack_m});
      if (blocked.back()[0] <= reach[0] && blocked.back()[1] >= reach[1]) return {};
    }
  }
  // Where the joists change, and where a bay may become wider or narrower.
  std::vector<double> stations;
  for (const JoistRun& run : framing_.runs) {
    for (const double station : crossings(run.area_m, line)) stations.push_back(station);
    const double sine = run.along.dot(line.along);
    constexpr double k_parallel_sine = 1e-9;
    if (!has_bay_limits() || std::abs(sine) < k_parallel_sine) continue;
    for (const Strip& strip : framing_.strips) {
      for (const Vector2d& corner : strip.corners_m) stations.push_back(run.along.dot(corner - line.point) / sine);
    }
  }
  std::ranges::sort(stations);
  std::vector<Span> spans = divided(without(within, std::move(blocked)), stations);
  std::erase_if(spans, [&](const Span& span) {
    const Vector2d middle = line.at((span[0] + span[1]) / 2);
    return !may_lie(lay, middle) || !is_place(middle);
  });
  return spans;
}

std::vector<Span> CeilingMap::windows(const Line& line) const {
  const std::vector<Span> in_room = spans_within(job_.room.corners_m, line);
  std::vector<Span> all;
  for (const Lay& lay : lays_) {
    for (const Span& span : free_spans(lay, line, in_room)) all.push_back(span);
  }
  return joined(std::move(all));
}

std::vector<RoundedHull::Side> CeilingMap::boundaries(const Lay& lay) const {
  std::vector<RoundedHull::Side> boundaries;
  for (const auto* regions : {&hole_, &lay.regions}) {
    for (const Region& region : *regions) {
      for (const auto& side : region.hull.sides(k_slack_m)) boundaries.push_back(side);
    }
  }
  const double room_m = perimeter(job_.room.corners_m);
  for (const JoistRun& run : framing_.runs) {
    for (std::size_t i = 0; i < run.area_m.size(); ++i) {
      const Vector2d way = run.area_m[(i + 1) % run.area_m.size()] - run.area_m[i];
      boundaries.push_back({{run.area_m[i], way.normalized()}, way.norm()});
    }
    if (!has_bay_limits()) continue;
    const Vector2d across = left_of(run.along);
    for (const Strip& strip : framing_.strips) {
      for (const Vector2d& corner : strip.corners_m) {
        boundaries.push_back({{corner - room_m * across, across}, 2 * room_m});
      }
    }
  }
  return boundaries;
}

std::vector<Circle> CeilingMap::circles_near(const Lay& lay, const Vector2d& point, double distance_m) const {
  const auto is_swallowed = [&](const Circle& circle) {
    const auto swallows = [&](const Region& region) { return region.hull.holds(circle.centre, circle.radius_m); };
    return std::ranges::any_of(hole_, swallows) || std::ranges::any_of(lay.regions, swallows);
  };
  const auto reaches_room = [&](const Circle& circle) {
    const Polygon& room = job_.room.corners_m;
    return is_inside(room, circle.centre) || distance_to_outline(room, circle.centre) <= circle.radius_m;
  };
  std::vector<Circle> circles;
  for (const auto* regions : {&hole_, &lay.regions}) {
    for (const Region& region : *regions) {
      if (region.hull.radius_m() <= 0) continue;
      for (const Vector2d& corner : region.hull.corners_m()) {
        const Circle circle{corner, region.hull.radius_m() + k_slack_m};
        const double off_m = std::abs((point - corner).norm() - circle.radius_m);
        if (off_m < distance_m && reaches_room(circle) && !is_swallowed(circle)) circles.push_back(circle);
      }
    }
  }
  return circles;
}

std::optional<Vector2d> CeilingMap::nearest(const Vector2d& centre_m) const {
  if (fits(centre_m)) return centre_m;
  Nearest nearest(*this, centre_m);
  const Vector2d joists = joists_at(centre_m);
  for (const Vector2d& along : {joists, left_of(joists)}) {
    const Line line{centre_m, along};
    nearest.consider(line, windows(line));
  }
  // The nearest place is on the boundary of one region, at its foot, or where two boundaries meet.
  for (const Lay& lay : lays_) {
    for (const auto& [distance_m, side] : by_distance(boundaries(lay), centre_m)) {
      if (distance_m >= nearest.distance_m()) break;
      nearest.consider(side.line, free_spans(lay, side.line, {{0, side.length_m}}));
    }
    const std::vector<Circle> circles = circles_near(lay, centre_m, nearest.distance_m());
    for (const auto& [corner, radius_m] : circles) {
      const Vector2d way = centre_m - corner;
      if (way.norm() > 0) nearest.consider(Vector2d(corner + radius_m * way.normalized()));
    }
    for (std::size_t i = 0; i < circles.size(); ++i) {
      for (std::size_t j = i + 1; j < circles.size(); ++j) {
        for (const Vector2d& place : crossings(circles[i], circles[j])) nearest.consider(place);
      }
    }
  }
  return nearest.place();
}

}  // namespace evenlit
