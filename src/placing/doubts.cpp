#include "evenlit/placing/doubts.hpp"

#include <algorithm>
#include <cmath>

#include "can_pattern.hpp"
#include "evenlit/base/parallel.hpp"
#include "evenlit/job/mounting.hpp"
#include "size_limit.hpp"

namespace evenlit {
namespace {

using Eigen::ArrayXd;
using Eigen::Vector2d;

Job with_dark_finishes(Job job) {
  const auto darken = [](double& reflectance) { reflectance = std::max(0.0, reflectance - k_darker); };
  darken(job.finishes.floor);
  darken(job.finishes.ceiling);
  darken(job.finishes.walls);
  for (auto& [wall, reflectance] : job.finishes.wall) darken(reflectance);
  for (WallArea& area : job.wall_areas) darken(area.reflectance);
  for (Obstruction& box : job.obstructions) darken(box.reflectance);
  return job;
}

/// Some of the cans of a list without repetitions: indices.
using Cans = std::vector<int>;

int index_of(const Can& can, std::vector<Can>& all) {
  const auto known = std::ranges::find(all, can);
  if (known != all.end()) return static_cast<int>(known - all.begin());
  all.push_back(can);
  return static_cast<int>(all.size()) - 1;
}

/// A room, cans in it, and what is read of it.
struct LitRoom {
  Scene scene;
  Readings readings;
  Response response;

  /// With only some of the cans.
  [[nodiscard]] LayoutFigures figures(const Grid& grid, const ComparedLayout& row, const Cans& cans) const {
    Scene some = scene;
    some.luminaires.clear();
    for (const int can : cans) some.luminaires.push_back(scene.luminaires[static_cast<std::size_t>(can)]);
    const auto [light, read] = room_light(some, grid, std::nullopt, readings, columns_of(response, cans));
    LayoutFigures figures{
        .average_lx = {light.statistics.average_lx, light.average_error_lx},
        .minimum_lx = {light.statistics.minimum_lx, light.field.error_lx[light.statistics.minimum_at]},
        .watts = row.watts,
        .cost = row.cost,
        .task_areas_lx = {}};
    for (const AreaLight& area : read.task_areas) figures.task_areas_lx.push_back(area.average_lx);
    return figures;
  }
};

Result<LitRoom> lit_room(Job job, const std::vector<Can>& cans, const std::vector<PhotometricFile>& photometry,
                         const Grid& grid, const Progress& progress) {
  job.cans = cans;
  LitRoom room{.scene = build_scene(job, photometry), .readings = {}, .response = {}};
  auto readings = readings_of(with_targets_only(job), room.scene);
  if (!readings) return tl::unexpected(readings.error());
  room.readings = std::move(*readings);
  room.response = response(room.scene, receivers_of(grid, room.readings), Accuracy{}, progress);
  return room;
}

DoubtedLight doubted(Doubt doubt, const Job& job, const LayoutFigures& figures) {
  return {doubt, figures.average_lx, figures.minimum_lx, wants_of(job, figures)};
}

LayoutFigures aged(LayoutFigures figures) {
  const auto age = [](Estimate& light) { light = {k_aged * light.value, k_aged * light.error}; };
  age(figures.average_lx);
  age(figures.minimum_lx);
  for (Estimate& area : figures.task_areas_lx) age(area);
  return figures;
}

DoubtedLight with_dead_can(const Job& job, const Grid& grid, const LitRoom& room, const ComparedLayout& row,
                           const Cans& cans) {
  if (cans.empty()) return doubted(Doubt::dead_can, job, room.figures(grid, row, cans));
  std::optional<DoubtedLight> worst;
  std::optional<Estimate> least_average_lx;
  std::optional<Estimate> least_minimum_lx;
  const auto keep_less = [](std::optional<Estimate>& least, const Estimate& light) {
    if (!least || light.value < least->value) least = light;
  };
  const auto badness = [](const DoubtedLight& light) {
    return std::pair(shortfall(light.wants), -light.minimum_lx.value);
  };
  for (std::size_t dead = 0; dead < cans.size(); ++dead) {
    Cans alive = cans;
    alive.erase(alive.begin() + static_cast<std::ptrdiff_t>(dead));
    DoubtedLight light = doubted(Doubt::dead_can, job, room.figures(grid, row, alive));
    keep_less(least_average_lx, light.average_lx);
    keep_less(least_minimum_lx, light.minimum_lx);
    if (!worst || badness(light) > badness(*worst)) worst = std::move(light);
  }
  worst->average_lx = *least_average_lx;
  worst->minimum_lx = *least_minimum_lx;
  return *worst;
}

/// A can and where it may end up: indices; its own where it cannot.
struct OffPlace {
  int can = 0;
  std::array<int, 2> along_x{};  ///< east, west
  std::array<int, 2> along_y{};  ///< north, south
};

/// Adds the places that a can may end up at to all cans.
OffPlace off_place(const Job& job, const Ceiling& ceiling, const Can& can, std::vector<Can>& all) {
  const Vector2d own_m = plan_position(job.room, can).value();
  const int own = index_of(can, all);
  const auto off_by = [&](const Vector2d& by_m) {
    const Vector2d place_m = own_m + by_m;
    const Can moved = placed(can, job.room, place_m);
    const bool is_place = is_inside(job.room.corners_m, place_m) &&
                          obstruction_around(job.obstructions, job.room, ceiling,
                                             mounting(job.room, ceiling, moved).value().opening_m) == nullptr;
    return is_place ? index_of(moved, all) : own;
  };
  const Vector2d east_m(k_off_place_m, 0);
  const Vector2d north_m(0, k_off_place_m);
  return {own, {off_by(east_m), off_by(-east_m)}, {off_by(north_m), off_by(-north_m)}};
}

/// Figures that are linear in the light, of each can alone: the grid's points, their average, the task areas' averages.
Eigen::ArrayXXd linear_figures_lx(const LitRoom& room, const Grid& grid) {
  const Eigen::MatrixXd lx = (room.response.direct_lx + room.response.indirect_lx) * levels_of(room.scene).asDiagonal();
  const auto points = std::ssize(grid.points_m);
  Eigen::ArrayXXd figures(points + 1 + std::ssize(room.readings.task_areas), lx.cols());
  figures.topRows(points) = lx.topRows(points);
  figures.row(points) = lx.topRows(points).colwise().mean();
  Eigen::Index next = points + 1;
  for (const AreaReading& area : room.readings.task_areas) {
    const Reading& average = area.average;
    figures.row(next++) = average.weights.transpose() * lx.middleRows(points + average.first, average.count());
  }
  return figures;
}

/// By how much each figure can grow (`sign` 1) or shrink (-1) when a can is off its place, at most.
ArrayXd largest_change_lx(const Eigen::ArrayXXd& figures_lx, const OffPlace& off, double sign) {
  const auto along = [&](const std::array<int, 2>& places) -> ArrayXd {
    const auto change = [&](int place) { return sign * (figures_lx.col(place) - figures_lx.col(off.can)); };
    return change(places[0]).max(change(places[1])).max(0.0);
  };
  return (along(off.along_x).square() + along(off.along_y).square()).sqrt();
}

DoubtedLight with_cans_off_place(const Job& job, LayoutFigures figures, const Eigen::ArrayXXd& figures_lx,
                                 const Cans& cans, const std::vector<OffPlace>& laid_out) {
  ArrayXd least_lx = ArrayXd::Zero(figures_lx.rows());
  for (const int can : cans) least_lx += figures_lx.col(can);
  const auto areas = std::ssize(figures.task_areas_lx);
  const Eigen::Index average = figures_lx.rows() - areas - 1;
  double highest_average_lx = least_lx[average];
  for (const OffPlace& off : laid_out) {
    least_lx -= largest_change_lx(figures_lx, off, -1);
    highest_average_lx += largest_change_lx(figures_lx.row(average), off, 1)[0];
  }
  figures.average_lx.value = least_lx[average];
  figures.minimum_lx.value = std::max(0.0, least_lx.head(average).minCoeff());
  for (Eigen::Index i = 0; i < areas; ++i) {
    figures.task_areas_lx[static_cast<std::size_t>(i)].value = least_lx[average + 1 + i];
  }
  DoubtedLight light = doubted(Doubt::cans_off_place, job, figures);
  // The ratio is least where the average is highest.
  figures.average_lx.value = highest_average_lx;
  const std::vector<Want> at_highest = wants_of(job, figures);
  for (std::size_t i = 0; i < at_highest.size(); ++i) {
    if (at_highest[i].kind == Want::Kind::uniformity) light.wants[i] = at_highest[i];
  }
  return light;
}

/// A layout's cans among all.
struct RowPlaces {
  Cans cans;
  std::vector<OffPlace> laid_out;
};

}  // namespace

Result<std::vector<LayoutDoubts>> doubts(const Job& job, const std::vector<PhotometricFile>& photometry,
                                         const Grid& grid, const std::vector<ComparedLayout>& rows, const Place& place,
                                         const Progress& progress) {
  std::vector<Can> all;
  std::vector<RowPlaces> places(rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    for (const Can& can : rows[i].cans) places[i].cans.push_back(index_of(can, all));
  }
  const std::vector<Can> as_drawn = all;
  const Ceiling ceiling = ceiling_of(job.room);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto& cans = rows[i].cans;
    for (std::size_t can = cans.size() - static_cast<std::size_t>(rows[i].count()); can < cans.size(); ++can) {
      places[i].laid_out.push_back(off_place(job, ceiling, cans[can], all));
    }
  }
  if (Problems problems = size_problems(grid.points_m.size(), all.size(), place); !problems.empty()) {
    return tl::unexpected(std::move(problems));
  }
  const auto room = lit_room(job, all, photometry, grid, part_of(progress, 0, 0.7));
  if (!room) return tl::unexpected(room.error());
  const auto dark = lit_room(with_dark_finishes(job), as_drawn, photometry, grid, part_of(progress, 0.7, 1));
  if (!dark) return tl::unexpected(dark.error());

  const Eigen::ArrayXXd figures_lx = linear_figures_lx(*room, grid);
  std::vector<LayoutDoubts> result(rows.size());
  parallel_for(static_cast<int>(rows.size()), [&](int row_index) {
    const auto i = static_cast<std::size_t>(row_index);
    const auto& [cans, laid_out] = places[i];
    const LayoutFigures drawn = room->figures(grid, rows[i], cans);
    const LayoutFigures in_dark = dark->figures(grid, rows[i], cans);
    result[i] = {doubted(Doubt::dark_finishes, job, in_dark), doubted(Doubt::aged_lamps, job, aged(drawn)),
                 with_cans_off_place(job, drawn, figures_lx, cans, laid_out),
                 with_dead_can(job, grid, *room, rows[i], cans), doubted(Doubt::dark_and_aged, job, aged(in_dark))};
  });
  return result;
}

}  // namespace evenlit
