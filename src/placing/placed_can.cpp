#include "evenlit/placing/placed_can.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <tuple>

#include "evenlit/job/mounting.hpp"
#include "evenlit/placing/hole_check.hpp"
#include "evenlit/placing/moved_layout.hpp"
#include "evenlit/placing/plan_frame.hpp"
#include "evenlit/placing/set_out.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Kind = CanLine::Kind;

/// The nearest to a station that leaves play at both ends of a window, or the middle of a narrow one.
double with_play(const Span& window, double station) {
  const double middle = (window[0] + window[1]) / 2;
  const double reach = std::max(0.0, (window[1] - window[0]) / 2 - k_play_m);
  return std::clamp(station, middle - reach, middle + reach);
}

/// The lines of a job that a can may be put on, in the plan's frame.
class Lines {
 public:
  Lines(const Job& job, int can, const PlanFrame& frame) : frame_(frame) {
    for (std::size_t i = 0; i < job.cans.size(); ++i) {
      if (static_cast<int>(i) == can) continue;
      others_.push_back(static_cast<int>(i));
      centres_.push_back(frame.in(plan_position(job.room, job.cans[i]).value()));
    }
  }

  /// Those near to a place along an axis, the better ones first.
  ///
  /// @param wished in the frame
  [[nodiscard]] std::vector<CanLine> near(const Polygon& plan_m, const Vector2d& wished, int axis) const {
    std::vector<CanLine> lines;
    const auto add = [&](Kind kind, double station, std::vector<int> cans) {
      if (std::abs(station - wished[axis]) > k_snap_m) return;
      lines.push_back({kind, axis, std::move(cans), line_at(axis, station)});
    };
    for (const auto& [station, members] : rows(axis)) add(Kind::row, station, cans_of(members));
    for (auto [station, members] : rows(1 - axis)) {
      std::ranges::sort(members, {}, [&](std::size_t i) { return centres_[i][axis]; });
      for (std::size_t i = 1; i < members.size(); ++i) {
        const double between = (centres_[members[i - 1]][axis] + centres_[members[i]][axis]) / 2;
        add(Kind::midway, between, cans_of({members[i - 1], members[i]}));
      }
    }
    for (const Eigen::AlignedBox2d& rectangle : rectangles_of(plan_m)) {
      if (rectangle.exteriorDistance(wished) <= k_snap_m) add(Kind::middle, rectangle.center()[axis], {});
    }
    const auto off = [&](const CanLine& line) { return std::abs(frame_.in(line.line.point)[axis] - wished[axis]); };
    std::ranges::stable_sort(lines, [&](const CanLine& a, const CanLine& b) {
      return std::tuple(a.kind, off(a)) < std::tuple(b.kind, off(b));
    });
    return lines;
  }

 private:
  struct Row {
    double station = 0;
    std::vector<std::size_t> members;
  };

  /// Cans of one station along an axis, by that.
  [[nodiscard]] std::vector<Row> rows(int axis) const {
    std::vector<std::size_t> order(centres_.size());
    std::iota(order.begin(), order.end(), 0);
    std::ranges::stable_sort(order, {}, [&](std::size_t i) { return centres_[i][axis]; });
    std::vector<Row> rows;
    for (const std::size_t i : order) {
      const double station = centres_[i][axis];
      if (rows.empty() || station - rows.back().station > k_in_line_m) rows.push_back({station, {}});
      rows.back().members.push_back(i);
    }
    return rows;
  }

  [[nodiscard]] std::vector<int> cans_of(const std::vector<std::size_t>& members) const {
    std::vector<int> cans;
    for (const std::size_t i : members) cans.push_back(others_[i]);
    std::ranges::sort(cans);
    return cans;
  }

  [[nodiscard]] Line line_at(int axis, double station) const {
    const Vector2d point = station * Vector2d::Unit(axis);
    return {frame_.out(point), frame_.out(Vector2d::Unit(1 - axis))};
  }

  const PlanFrame& frame_;
  std::vector<int> others_;
  std::vector<Vector2d> centres_;  ///< in the frame
};

/// Finds a place for one can.
class Placer {
 public:
  Placer(const Job& job, int can)
      : job_(job),
        can_(job.cans[static_cast<std::size_t>(can)]),
        framing_(framing(job)),
        ceiling_(ceiling_of(job.room)) {
    if (!needs_hole(job, can_)) return;
    const CanType& type = *std::ranges::find(job.can_types, can_.type, &CanType::name);
    const std::vector<Obstacle> fixed = fixed_obstacles(job, framing_);
    std::vector<int> others(job.cans.size());
    std::iota(others.begin(), others.end(), 0);
    std::erase(others, can);
    map_.emplace(job, framing_, type, fixed);
    for (const Obstacle& other : can_obstacles(job, framing_, fixed, others)) map_->add(other);
  }

  [[nodiscard]] PlacedCan placed(int can, const Vector2d& wished_m) const {
    PlacedCan placed{.wished_m = nearest_of(job_.room.corners_m, wished_m)};
    if (map_) placed.hits = map_->hits(placed.wished_m);
    if (const Obstruction* around = obstruction_at(placed.wished_m)) placed.inside = around->name;
    const PlanFrame frame = frame_of(job_.room.corners_m);
    const Vector2d wished = frame.in(placed.wished_m);
    const Lines all(job_, can, frame);
    const std::array<std::vector<CanLine>, 2> lines{all.near(job_.room.corners_m, wished, 0),
                                                    all.near(job_.room.corners_m, wished, 1)};
    const auto put = [&](const Vector2d& place_m, std::vector<CanLine> on) {
      if (!fits(place_m)) return false;
      placed.place_m = place_m;
      placed.lines = std::move(on);
      return true;
    };
    for (const CanLine& first : lines[0]) {
      for (const CanLine& second : lines[1]) {
        if (put(first.line.at(first.line.station_of(second.line.point)), {first, second})) return placed;
      }
    }
    std::vector<CanLine> either = lines[0];
    either.insert(either.end(), lines[1].begin(), lines[1].end());
    std::ranges::stable_sort(either, {}, &CanLine::kind);
    const Vector2d marked_m = on_marks(frame, placed.wished_m);
    for (const CanLine& line : either) {
      if (put(line.line.at(line.line.station_of(marked_m)), {line})) return placed;
    }
    if (put(marked_m, {})) return placed;
    for (const CanLine& line : either) {
      const auto place_m = nearest_on(line.line, placed.wished_m);
      if (place_m && put(*place_m, {line})) return placed;
    }
    if (const auto place_m = nearest(placed.wished_m)) put(*place_m, {});
    return placed;
  }

 private:
  [[nodiscard]] const Obstruction* obstruction_at(const Vector2d& place_m) const {
    const double under_ceiling_m = ceiling_.height_m(place_m) - can_.drop_m.value_or(0);
    return obstruction_around(job_.obstructions, job_.room, ceiling_,
                              {place_m.x(), place_m.y(), can_.height_m.value_or(under_ceiling_m)});
  }

  [[nodiscard]] bool fits(const Vector2d& place_m) const {
    const bool is_clear = map_ ? map_->fits(place_m) : is_inside(job_.room.corners_m, place_m);
    return is_clear && obstruction_at(place_m) == nullptr;
  }

  /// The nearest whole step of a tape from the plan's south and west.
  [[nodiscard]] Vector2d on_marks(const PlanFrame& frame, const Vector2d& place_m) const {
    const double step_m = job_.units == Units::imperial ? k_metres_per_inch / 8 : 0.005;
    const Vector2d corner = bounds_of(frame.in(job_.room.corners_m)).min();
    const Eigen::Array2d steps = ((frame.in(place_m)-corner) / step_m).array().round();
    return frame.out(corner + step_m * steps.matrix());
  }

  /// On a line, not far along it from a place beside it.
  [[nodiscard]] std::optional<Vector2d> nearest_on(const Line& line, const Vector2d& wished_m) const {
    if (!map_) return std::nullopt;
    const double wished = line.station_of(wished_m);
    std::optional<double> best;
    for (const Span& window : map_->windows(line)) {
      const double station = with_play(window, wished);
      if (!best || std::abs(station - wished) < std::abs(*best - wished)) best = station;
    }
    if (!best || std::abs(*best - wished) > k_snap_m) return std::nullopt;
    return line.at(*best);
  }

  /// The nearest place that is not far, with play to what was in the way.
  [[nodiscard]] std::optional<Vector2d> nearest(const Vector2d& wished_m) const {
    const auto place_m = map_ ? map_->nearest(wished_m) : std::nullopt;
    if (!place_m) return std::nullopt;
    const Vector2d way = *place_m - wished_m;
    if (way.norm() > k_farthest_shift_m) return std::nullopt;
    if (way.norm() < k_touch_m) return place_m;
    const Line line{*place_m, way.normalized()};
    for (const Span& window : map_->windows(line)) {
      if (window[0] <= k_touch_m && window[1] >= -k_touch_m) return line.at(with_play(window, 0));
    }
    return place_m;
  }

  const Job& job_;
  const Can& can_;
  Framing framing_;
  Ceiling ceiling_;
  std::optional<CeilingMap> map_;  ///< with the other cans in it; empty for one that needs no hole
};

}  // namespace

PlacedCan placed_can(const Job& job, int can, const Vector2d& wished_m) {
  return Placer(job, can).placed(can, wished_m);
}

}  // namespace evenlit
