#include "evenlit/placing/comparison.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "can_pattern.hpp"
#include "evenlit/job/mounting.hpp"
#include "evenlit/placing/hole_check.hpp"
#include "size_limit.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;

const std::string& type_of(const Layout& layout, const CanPattern& pattern) {
  return layout.type.empty() ? pattern.can.type : layout.type;
}

/// The layouts, each that does not fit followed by itself as moved to fit.
class MovedRows {
 public:
  MovedRows(const Job& job, const CanPattern& pattern, bool may_move_single_cans)
      : job_(job),
        pattern_(pattern),
        may_move_single_cans_(may_move_single_cans),
        framing_(framing(job)),
        obstacles_(fixed_obstacles(job, framing_)) {
    for (Obstacle& can : can_obstacles(job, framing_, obstacles_, pattern.others)) obstacles_.push_back(std::move(can));
  }

  void add_to(Comparison& comparison, const Layout& layout) const {
    const CanType& type = type_named(job_, type_of(layout, pattern_));
    comparison.rows.push_back({.layout = layout});
    comparison.rows.back().layout.type = type.name;
    if (!type.hole_m) return;
    const CeilingMap map(job_, framing_, type, obstacles_);
    MovedLayout moved = moved_to_fit(layout.positions_m, map, type, rules_of(layout));
    if (!moved.all_fit) {
      comparison.stuck.push_back(layout.type.empty() ? layout.name : layout.name + ", " + layout.type);
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
    row.layout.type = type_of(layout, pattern_);
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
  const CanPattern& pattern_;
  bool may_move_single_cans_;
  Framing framing_;
  std::vector<Obstacle> obstacles_;  ///< all but the cans that are laid out
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
  AllPlaces(const Job& job, const CanPattern& pattern, const Layout& own) : all_(job), pattern_(pattern) {
    for (std::size_t i = 0; i < own.positions_m.size(); ++i) {
      places_.push_back({own.positions_m[i], pattern.can.type, pattern.cans[i]});
    }
  }

  /// The cans of a layout, indices into all, those that stay first.
  std::vector<int> cans_of(const Layout& layout) {
    std::vector<int> cans = pattern_.others;
    const std::string& type = type_of(layout, pattern_);
    for (const Vector2d& position : layout.positions_m) cans.push_back(can_at(position, type));
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
    std::string type;
    int can;
  };

  int can_at(const Vector2d& position_m, const std::string& type) {
    const auto known = std::ranges::find_if(places_, [&](const Place& place) {
      return place.type == type && (place.position_m - position_m).norm() < k_touch_m;
    });
    if (known != places_.end()) return known->can;
    places_.push_back({position_m, type, static_cast<int>(all_.cans.size())});
    Can can = pattern_.can;
    can.type = type;
    all_.cans.push_back(placed(std::move(can), all_.room, position_m));
    return places_.back().can;
  }

  Job all_;
  const CanPattern& pattern_;
  std::vector<Place> places_;
};

bool is_obstructed(const Job& job, const Ceiling& ceiling, const Layout& layout) {
  return std::ranges::any_of(layout.positions_m, [&](const Vector2d& position) {
    const Eigen::Vector3d opening_m(position.x(), position.y(), ceiling.height_m(position));
    return obstruction_around(job.obstructions, job.room, ceiling, opening_m) != nullptr;
  });
}

std::optional<int> misfit_count(const Job& job, const std::string& type) {
  if (!type_named(job, type).hole_m) return std::nullopt;
  return static_cast<int>(misfits(job).size());
}

std::optional<double> cost_of(const Job& job) {
  double sum = 0;
  for (const Can& can : job.cans) {
    const auto& price = type_named(job, can.type).price;
    if (!price) return std::nullopt;
    sum += *price;
  }
  return sum;
}

LayoutFigures figures_of(const ComparedLayout& row, const std::vector<AreaLight>& task_areas) {
  LayoutFigures figures{.average_lx = {row.statistics.average_lx, row.average_error_lx},
                        .minimum_lx = {row.statistics.minimum_lx, row.minimum_error_lx},
                        .watts = row.watts,
                        .cost = row.cost,
                        .task_areas_lx = {}};
  for (const AreaLight& area : task_areas) figures.task_areas_lx.push_back(area.average_lx);
  return figures;
}

std::optional<int> fewest(const std::vector<ComparedLayout>& rows) {
  std::optional<int> fewest;
  for (const ComparedLayout& row : rows) {
    if (row.gives_all() && (!fewest || row.count() < *fewest)) fewest = row.count();
  }
  return fewest;
}

}  // namespace

Result<Comparison> compared(const Job& job, const std::vector<PhotometricFile>& photometry, const Grid& grid,
                            const std::vector<Layout>& layouts, const Place& place, bool may_move_single_cans,
                            const Progress& progress) {
  const CanPattern pattern = pattern_of(job);
  Comparison result{.type = pattern.can.type, .others = static_cast<int>(pattern.others.size())};
  const Ceiling ceiling = ceiling_of(job.room);
  const MovedRows moved_rows(job, pattern, may_move_single_cans);
  moved_rows.add_to(result, own_layout(job, pattern.cans));
  for (const Layout& layout : layouts) {
    if (is_obstructed(job, ceiling, layout)) {
      if (std::ranges::find(result.left_out, layout.name) == result.left_out.end()) {
        result.left_out.push_back(layout.name);
      }
    } else {
      moved_rows.add_to(result, layout);
    }
  }

  AllPlaces places(job, pattern, result.rows.front().layout);
  std::vector<std::vector<int>> cans;
  for (const ComparedLayout& row : result.rows) cans.push_back(places.cans_of(row.layout));
  if (Problems problems = size_problems(grid.points_m.size(), places.job().cans.size(), place); !problems.empty()) {
    return tl::unexpected(std::move(problems));
  }
  Scene scene = build_scene(places.job(), photometry);
  const auto readings = readings_of(with_targets_only(job), scene);
  if (!readings) return tl::unexpected(readings.error());
  const Response table = response(scene, receivers_of(grid, *readings), Accuracy{}, progress);

  const std::vector<Luminaire> luminaires = std::move(scene.luminaires);
  for (std::size_t i = 0; i < cans.size(); ++i) {
    scene.luminaires.clear();
    for (const int can : cans[i]) scene.luminaires.push_back(luminaires[static_cast<std::size_t>(can)]);
    auto [light, read] = room_light(scene, grid, job.target_lx, *readings, columns_of(table, cans[i]));
    Job laid_out = places.job_of(cans[i]);
    ComparedLayout& row = result.rows[i];
    row.statistics = light.statistics;
    row.average_error_lx = light.average_error_lx;
    row.minimum_error_lx = light.field.error_lx[light.statistics.minimum_at];
    row.watts = light.watts;
    row.floor_area_m2 = light.floor_area_m2;
    row.cost = cost_of(laid_out);
    row.wants = wants_of(job, figures_of(row, read.task_areas));
    row.misfits = misfit_count(laid_out, type_of(row.layout, pattern));
    row.cans = std::move(laid_out.cans);
    row.luminaires = scene.luminaires;
    row.field = std::move(light.field);
  }
  result.fewest = fewest(result.rows);
  return result;
}

bool has_several_types(const std::vector<ComparedLayout>& rows) {
  return std::ranges::any_of(rows,
                             [&](const ComparedLayout& row) { return row.layout.type != rows.front().layout.type; });
}

Job with_layout(const Job& job, const Layout& layout) {
  const CanPattern pattern = pattern_of(job);
  Job changed = job;
  changed.cans.clear();
  Can can = pattern.can;
  can.type = type_of(layout, pattern);
  for (const Vector2d& position : layout.positions_m) changed.cans.push_back(placed(can, job.room, position));
  for (const int other : pattern.others) changed.cans.push_back(job.cans[static_cast<std::size_t>(other)]);
  return changed;
}

}  // namespace evenlit
