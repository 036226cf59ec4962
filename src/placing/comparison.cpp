#include "evenlit/placing/comparison.hpp"

#include <fmt/format.h>

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "evenlit/job/mounting.hpp"
#include "evenlit/placing/hole_check.hpp"
#include "evenlit/placing/line.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;

/// As many cans as a job may have.
constexpr std::size_t k_most_columns = 500;

/// The can with its place forgotten.
Can without_place(Can can) {
  for (Taped& taped : can.from) taped = {};
  return can;
}

bool is_flush(const Can& can) { return !can.height_m && can.drop_m.value_or(0) == 0; }

/// What is laid out: a can without a place, and the job's that are like it.
struct Pattern {
  Can can;
  std::vector<int> cans;    ///< indices into the job's
  std::vector<int> others;  ///< the rest of them
};

Pattern pattern_of(const Job& job) {
  std::vector<Can> bare;
  for (const Can& can : job.cans) bare.push_back(without_place(can));
  Pattern pattern{.can = {.type = job.can_types.front().name}};
  std::ptrdiff_t most = 0;
  for (const Can& can : bare) {
    const auto alike = std::ranges::count(bare, can);
    if (!is_flush(can) || alike <= most) continue;
    most = alike;
    pattern.can = can;
  }
  for (std::size_t i = 0; i < bare.size(); ++i) {
    (most > 0 && bare[i] == pattern.can ? pattern.cans : pattern.others).push_back(static_cast<int>(i));
  }
  return pattern;
}

/// The can at a place of the plan: taped from the first wall and the one most nearly square to it.
Can placed(Can can, const Shape& room, const Vector2d& place_m) {
  const auto turn = [&](int wall) { return std::abs(left_of(along_wall(room, 0)).dot(along_wall(room, wall))); };
  int second = 1;
  for (int wall = 2; wall < std::ssize(room.corners_m); ++wall) {
    if (turn(wall) > turn(second)) second = wall;
  }
  const auto taped = [&](int wall) {
    const auto index = static_cast<std::size_t>(wall);
    return Taped{room.wall_names[index], left_of(along_wall(room, wall)).dot(place_m - room.corners_m[index])};
  };
  can.from[0] = taped(0);
  can.from[1] = taped(second);
  return can;
}

/// How far the outermost positions are from the sides of the plan's bounding rectangle, the larger of both.
Vector2d wall_offset_m(const Polygon& plan_m, const std::vector<Vector2d>& positions_m) {
  const Eigen::AlignedBox2d room = bounds_of(plan_m);
  const Eigen::AlignedBox2d cans = bounds_of(positions_m);
  if (cans.isEmpty()) return Vector2d::Zero();
  return (cans.min() - room.min()).cwiseMax(room.max() - cans.max());
}

/// The layouts, each that does not fit followed by itself as moved to fit.
class MovedRows {
 public:
  MovedRows(const Job& job, const Pattern& pattern)
      : job_(job), type_(*std::ranges::find(job.can_types, pattern.can.type, &CanType::name)), framing_(framing(job)) {
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
    MovedLayout moved = moved_to_fit(layout.positions_m, *map_, type_, job_.room.corners_m);
    if (!moved.all_fit) {
      comparison.stuck.push_back(layout.name);
    } else if (!moved.moves.empty()) {
      comparison.rows.push_back(row_of(layout, std::move(moved)));
    }
  }

 private:
  [[nodiscard]] ComparedLayout row_of(const Layout& layout, MovedLayout moved) const {
    ComparedLayout row{.layout = layout, .moves = std::move(moved.moves)};
    row.layout.name += ", moved";
    row.layout.positions_m = std::move(moved.positions_m);
    row.layout.wall_offset_m = wall_offset_m(job_.room.corners_m, row.layout.positions_m);
    for (const PartMove& move : row.moves) {
      if (move.part == PartMove::Part::all) continue;
      row.layout.spacing_m = (move.by_m.array() == 0).select(row.layout.spacing_m, 0);
    }
    return row;
  }

  const Job& job_;
  const CanType& type_;
  Framing framing_;
  std::optional<CeilingMap> map_;  ///< without the cans that are laid out; empty where the type has no hole
};

/// The job's own layout.
Layout own_layout(const Job& job, const std::vector<int>& cans) {
  Layout layout{.name = "as in the job"};
  for (const int can : cans) {
    layout.positions_m.push_back(plan_position(job.room, job.cans[static_cast<std::size_t>(can)]).value());
  }
  layout.wall_offset_m = wall_offset_m(job.room.corners_m, layout.positions_m);
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
                            const std::vector<Layout>& layouts, const Place& place, const Progress& progress) {
  const Pattern pattern = pattern_of(job);
  Comparison result{.type = pattern.can.type,
                    .others = static_cast<int>(pattern.others.size()),
                    .floor_area_m2 = signed_area(job.room.corners_m)};
  const Ceiling ceiling = ceiling_of(job.room);
  const MovedRows moved_rows(job, pattern);
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
    WorkPlaneLight light = work_plane_light(scene, grid, job.target_lx, columns_of(table, cans[i]));
    Job laid_out = places.job_of(cans[i]);
    ComparedLayout& row = result.rows[i];
    row.statistics = light.statistics;
    row.average_error_lx = light.average_error_lx;
    row.minimum_error_lx = light.field.error_lx[light.statistics.minimum_at];
    row.watts = light.watts;
    row.reaches_target = reaches(job.target_lx, row);
    row.misfits = misfit_count(laid_out, pattern.can.type);
    row.cans = std::move(laid_out.cans);
    row.luminaires = scene.luminaires;
    row.field = std::move(light.field);
  }
  result.fewest = fewest(result.rows);
  return result;
}

}  // namespace evenlit
