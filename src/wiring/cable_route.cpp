#include "evenlit/wiring/cable_route.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "evenlit/job/ceiling.hpp"
#include "evenlit/placing/framing.hpp"
#include "evenlit/placing/line.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;

/// The name of a joist among those of all series.
std::string joist_name(const Job& job, std::size_t series, std::size_t joist) {
  const std::string name = "joist " + std::to_string(joist + 1);
  return job.joists.size() == 1 ? name : name + " of series " + std::to_string(series + 1);
}

}  // namespace

CeilingRoutes::CeilingRoutes(const Job& job) : room_(job.room), path_(job.wiring.value().path) {
  for (const JoistRun& run : framing(job).runs) bays_.push_back({run.along, run.area_m});
  if (bays_.empty()) bays_.push_back({along_wall(job.room, 0), {}});
  const auto add = [&](std::string name, const Strip& strip, double thickness_m) {
    const Vector2d start = (strip.corners_m[0] + strip.corners_m[3]) / 2;
    const Vector2d end = (strip.corners_m[1] + strip.corners_m[2]) / 2;
    const Vector2d along = (end - start).normalized();
    beams_.push_back({std::move(name), start - thickness_m * along, along, (end - start).norm() + 2 * thickness_m});
  };
  for (std::size_t series = 0; series < job.joists.size(); ++series) {
    const std::vector<Strip> strips = strips_of(job.room, job.joists[series]);
    for (std::size_t i = 0; i < strips.size(); ++i) {
      add(joist_name(job, series, i), strips[i], job.joists[series].thickness_m);
    }
  }
  for (const Member& member : job.members) add(member.name, strip_of(job.room, member), member.thickness_m);
}

std::vector<Vector2d> CeilingRoutes::frames_at(const Vector2d& from_m, const Vector2d& to_m) const {
  std::vector<Vector2d> frames;
  for (const Vector2d& point : {from_m, to_m}) {
    const auto found = std::ranges::find_if(
        bays_, [&](const Bays& bays) { return bays.area_m.empty() || is_inside(bays.area_m, point); });
    frames.push_back(found == bays_.end() ? bays_.front().along : found->along);
  }
  return frames;
}

Route CeilingRoutes::along(std::vector<Vector2d> points_m) const {
  Route route{.points_m = std::move(points_m), .crossings = {}, .length_m = 0};
  double plan_m = 0;
  for (std::size_t i = 1; i < route.points_m.size(); ++i) {
    const Vector2d& from = route.points_m[i - 1];
    const Vector2d step = route.points_m[i] - from;
    plan_m += step.norm();
    if (path_ == Wiring::Path::open) continue;
    std::vector<std::pair<double, Crossing>> met;  // by the part of the step at which it is
    for (const Beam& beam : beams_) {
      const Vector2d across = left_of(beam.along);
      const double before = across.dot(from - beam.start_m);
      const double after = across.dot(route.points_m[i] - beam.start_m);
      if ((before >= 0) == (after >= 0)) continue;
      const double share = before / (before - after);
      const Vector2d at = from + share * step;
      const double station_m = beam.along.dot(at - beam.start_m);
      if (station_m >= 0 && station_m <= beam.length_m) met.push_back({share, {at, beam.name}});
    }
    std::ranges::stable_sort(met, {}, &std::pair<double, Crossing>::first);
    for (auto& crossing : met) route.crossings.push_back(std::move(crossing.second));
  }
  const Ceiling ceiling = ceiling_of(room_);
  const double rise_m = ceiling.height_m(route.points_m.back()) - ceiling.height_m(route.points_m.front());
  route.length_m = std::hypot(plan_m, rise_m);
  return route;
}

Route CeilingRoutes::between(const Vector2d& from_m, const Vector2d& to_m) const {
  Route best = along({from_m, to_m});
  if (path_ == Wiring::Path::open) return best;
  const auto rank = [](const Route& route) { return std::tuple(route.crossings.size(), route.length_m); };
  bool is_first = true;
  for (const Vector2d& frame : frames_at(from_m, to_m)) {
    const Vector2d part_along = frame.dot(to_m - from_m) * frame;
    for (const Vector2d& corner : {Vector2d(from_m + part_along), Vector2d(to_m - part_along)}) {
      Route tried = along({from_m, corner, to_m});
      if (!is_first && rank(tried) >= rank(best)) continue;
      best = std::move(tried);
      is_first = false;
    }
  }
  return best;
}

}  // namespace evenlit
