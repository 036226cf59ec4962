#include "evenlit/placing/comparison.hpp"

#include <fmt/format.h>

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "evenlit/job/mounting.hpp"
#include "evenlit/placing/hole_check.hpp"
#include "pattern.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;

/// As many cans as a job may have.
constexpr std::size_t k_most_columns = 500;

/// The layouts, each that does not fit followed by itself as moved to fit.
class MovedRows {
 public:
  MovedRows(const Job& job, const Pattern& pattern, bool may_move_single_cans)
      : job_(job),
        may_move_single_cans_(may_move_single_cans),
        type_(*std::ranges::find(job.can_types, pattern.can.type, &CanType::name)),
        framing_(framing(job)) {
    if (!type_.hole_m) return;
    const std::vector<Obstacle> fixed = fixed_obstacles(job, framing_);
    map_.emplace(job_, framing_, type_, fixed);
    for (const Obstacle& can : can_obstacles(job, framing_, fixed, pattern.others)) map_->add(can);
  }
  MovedRows(const MovedRows&) = delete;
  MovedRows& operator=(const MovedRows&) = delete;

  void add_to(Comparison& comparison, const Layout& layout) const {
    comparison.rows.push_back({.layout = layout});
    if (!map_) return;
    MovedLayout moved = moved_to_fit(layout.positions_m, *map_, type_, rules_of(layout));
    if (!moved.all_fit) {
      comparison.stuck.push_back(layout.name);
    } else if (!moved.moves.empty()) {
      comparison.rows.push_back(row_of(layout, std::move(moved)));
    }
  }

 private:
  [[nodiscard]] MoveRules rules_of(const Layout& layout) const {
    const PlanFrame frame{layout.along};
    const Vector2d room_middle_m = bounds_of(frame.in(job_.room.corners_m)).center();
    return {.frame = frame,
            .middle_m = layout.middle_m.value_or(frame.out(room_middle_m)),
            .is_held = layout.is_held,
            .units = job_.units,
            .may_move_single_cans = may_move_single_cans_};
  }

  [[nodiscard]] ComparedLayout row_of(const Layout& layout, MovedLayout moved) const {
    ComparedLayout row{.layout = layout, .moves = std::move(moved.moves)};
    row.is_straight = moved.is_straight;
    row.symmetry = moved.symmetry;
    row.layout.name += ", moved";
    row.layout.positions_m = std::move(moved.positions_m);
    row.layout.wall_offset_m = wall_offset_m(job_.room.corners_m, layout.along, row.layout.positions_m);
    row.layout.spacing_m = layout.spacing_m.cwiseProduct(moved.spacing_factor);
    for (LayoutPart& part : row.layout.parts) part.spacing_m = part.spacing_m.cwiseProduct(moved.spacing_factor);
    row.is_spacing_even = moved.spacing_factor.minCoeff() > 0;
    return row;
  }

  const Job& job_;
  bool may_move_single_cans_;
  const CanType& type_;
  Framing framing_;
  std::optional<CeilingMap> map_;  ///< without the cans that are laid out; empty where the type has no hole
};

/// The job's own layout.
Layout own_layout(const Job& job, const std::vector<int>& cans) {
  Layout layout{.name = "as in the job", .along = frame_of(job.room.corners_m).along};
  for (const int can : cans) {
    layout.positions_m.push_back(plan_position(job.room, job.cans[static_cast<std::size_t>(can)]).value());
  }
  layout.wall_offset_m = wall_offset_m(job.room.corners_m, layout.along, layout.positions_m);
  return layout;
}

/// The job with cans added at every position of the layouts that none is at yet, and which can is where.
class AllPlaces {
 public:
  AllPlaces(const Job& job, const Pattern& pattern, const Layout& own) : all_(job), pattern_(pattern) {
    for (std::size_t i = 0; i < own.positions_m.size(); ++i) places_.push_back({own.positions_m[i], pattern.cans[i]});
  }

  /// The cans of a layout, indices into all, those that stay first.
  std::vector<int> cans_of(const Layout& layout) {
    std::vector<int> cans = pattern_.others;
    for (const Vector2d& position : layout.positions_m) cans.push_back(can_at(position));
    return cans;
  }

  [[nodiscard]] const Job& job() const { return all_; }

  /// The job with some of the cans.
  [[nodiscard]] Job job_of(const std::vector<int>& cans) const {
    Job some = all_;
    some.cans.clear();
    for (const int can : cans) some.cans.push_back(all_.cans[static_cast<std::size_t>(can)]);
    return some;
  }

 private:
  struct Place {
    Vector2d position_m;
    int can;
  };

  int can_at(const Vector2d& position_m) {
    const auto known = std::ranges::find_if(
        places_, [&](const Place& place) { return (place.position_m - position_m).norm() < k_touch_m; });
    if (known != places_.end()) return known->can;
    places_.push_back({position_m, static_cast<int>(all_.cans.size())});
    all_.cans.push_back(placed(pattern_.can, all_.room, position_m));
    return places_.back().can;
  }

  Job all_;
  const Pattern& pattern_;
  std::vector<Place> places_;
};

bool is_obstructed(const Job& job, const Ceiling& ceiling, const Layout& layout) {
  return std::ranges::any_of(layout.positions_m, [&](const Vector2d& position) {
    const Eigen::Vector3d opening_m(position.x(), position.y(), ceiling.height_m(position));
    return obstruction_around(job.obstructions, job.room, ceiling, opening_m) != nullptr;
  });
}

std::optional<int> misfit_count(const Job& job, const std::string& type) {
  if (!std::ranges::find(job.can_types, type, &CanType::name)->hole_m) return std::nullopt;
  return static_cast<int>(misfits(job).size());
}

bool reaches(const std::optional<double>& target_lx, const ComparedLayout& row) {
  return target_lx && row.statistics.average_lx - *target_lx >= row.average_error_lx;
}

std::optional<int> fewest(const std::vector<ComparedLayout>& rows) {
  std::optional<int> fewest;
  for (const ComparedLayout& row : rows) {
    if (row.reaches_target && (!fewest || row.count() < *fewest)) fewest = row.count();
  }
  return fewest;
}

}  // namespace

Result<Comparison> compared(const Job& job, const std::vector<PhotometricFile>& photometry, const Grid& grid,
                            const std::vector<Layout>& layouts, const Place& place, bool may_move_single_cans,
                            const Progress& progress) {
  const Pattern pattern = pattern_of(job);
  Comparison result{.type = pattern.can.type,
                    .others = static_cast<int>(pattern.others.size()),
                    .floor_area_m2 = signed_area(job.room.corners_m)};
  const Ceiling ceiling = ceiling_of(job.room);
  const MovedRows moved_rows(job, pattern, may_move_single_cans);
  moved_rows.add_to(result, own_layout(job, pattern.cans));
  for (const Layout& layout : layouts) {
    if (is_obstructed(job, ceiling, layout)) {
      result.left_out.push_back(layout.name);
    } else {
      moved_rows.add_to(result, layout);
    }
  }

  AllPlaces places(job, pattern, result.rows.front().layout);
  std::vector<std::vector<int>> cans;
  for (const ComparedLayout& row : result.rows) cans.push_back(places.cans_of(row.layout));
  const std::size_t points = grid.points_m.size();
  if (points * places.job().cans.size() > k_most_columns * k_most_grid_points) {
    return failure(place,
                   fmt::format("{} grid points and {} places for cans are more than can be compared at once", points,
                               places.job().cans.size()),
                   "choose a wider spacing of the work plane's grid, or compare fewer counts");
  }
  Scene scene = build_scene(places.job(), photometry);
  const Response table = response(scene, upward_receivers(grid), Accuracy{}, progress);

  const std::vector<Luminaire> luminaires = std::move(scene.luminaires);
  for (std::size_t i = 0; i < cans.size(); ++i) {
    scene.luminaires.clear();
    for (const int can : cans[i]) scene.luminaires.push_back(luminaires[static_cast<std::size_t>(can)]);
    const WorkPlaneLight light = work_plane_light(scene, grid, job.target_lx, columns_of(table, cans[i]));
    ComparedLayout& row = result.rows[i];
    row.statistics = light.statistics;
    row.average_error_lx = light.average_error_lx;
    row.minimum_error_lx = light.field.error_lx[light.statistics.minimum_at];
    row.watts = light.watts;
    row.reaches_target = reaches(job.target_lx, row);
    row.misfits = misfit_count(places.job_of(cans[i]), pattern.can.type);
  }
  result.fewest = fewest(result.rows);
  return result;
}

}  // namespace evenlit
