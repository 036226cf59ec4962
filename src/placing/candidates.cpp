#include "evenlit/placing/candidates.hpp"

#include <algorithm>
#include <cmath>

#include "can_pattern.hpp"
#include "evenlit/base/parallel.hpp"
#include "evenlit/field/readings_light.hpp"
#include "evenlit/job/mounting.hpp"
#include "evenlit/placing/hole_check.hpp"
#include "evenlit/placing/moved_layout.hpp"
#include "evenlit/placing/wanted.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;

double step_m(Units units, const Vector2d& size_m) {
  double step = units == Units::imperial ? 2 * k_metres_per_inch : 0.05;
  while (size_m.prod() > k_most_raster_places * step * step) step *= 2;
  return step;
}

/// Common practice, no source: nearer cans leave bright scallops on the walls.
double least_from_walls_m(const Job& job, const Vector2d& size_m) {
  constexpr double k_usual_m = 0.6096;
  return job.wanted.from_walls_m.value_or(std::min(k_usual_m, size_m.minCoeff() / 4));
}

/// Places on both sides of a middle line, that one included.
int places_along(double length_m, double step_m) { return 2 * static_cast<int>(length_m / 2 / step_m) + 1; }

/// The job with one can of a type in each place, behind those that stay.
Job with_candidates(const Job& job, const CanPattern& pattern, const std::string& type,
                    const std::vector<Vector2d>& places_m) {
  Job all = job;
  all.cans.clear();
  for (const int other : pattern.others) all.cans.push_back(job.cans[static_cast<std::size_t>(other)]);
  Can can = pattern.can;
  can.type = type;
  for (const Vector2d& place : places_m) all.cans.push_back(placed(can, job.room, place));
  return all;
}

/// What a luminaire draws at its level.
std::optional<double> watts_of(const Luminaire& luminaire) {
  if (luminaire.level == 0) return 0.0;
  if (!luminaire.watts) return std::nullopt;
  return *luminaire.watts * luminaire.level;
}

/// Empty where a part is.
std::optional<double> sum_of(const std::vector<std::optional<double>>& parts) {
  double sum = 0;
  for (const auto& part : parts) {
    if (!part) return std::nullopt;
    sum += *part;
  }
  return sum;
}

double least_apart_m(const CanType& type) {
  const double body_m = type.housing ? std::hypot(type.housing->length_m, type.housing->width_m) : 0;
  return std::max(type.hole_m.value_or(0), body_m) + k_touch_m;
}

}  // namespace

Raster raster_of(const Job& job, const std::string& type_name) {
  const CanType& type = type_named(job, type_name);
  const PlanFrame frame = frame_of(job.room.corners_m);
  const Eigen::AlignedBox2d box = bounds_of(frame.in(job.room.corners_m));
  Raster raster{.frame = frame, .first_m = box.center(), .step_m = step_m(job.units, box.sizes())};
  raster.columns = places_along(box.sizes().x(), raster.step_m);
  raster.rows = places_along(box.sizes().y(), raster.step_m);
  raster.first_m -= raster.step_m * Vector2d(raster.columns / 2, raster.rows / 2);

  const Framing framing = evenlit::framing(job);
  const std::vector<Obstacle> fixed = fixed_obstacles(job, framing);
  std::optional<CeilingMap> map;
  if (type.hole_m) {
    map.emplace(job, framing, type, fixed);
    for (const Obstacle& can : can_obstacles(job, framing, fixed, pattern_of(job).others)) map->add(can);
  }
  const Ceiling ceiling = ceiling_of(job.room);
  const double from_walls_m = least_from_walls_m(job, box.sizes());
  const auto fits = [&](const Vector2d& place, double play_m) {
    const Eigen::Vector3d opening(place.x(), place.y(), ceiling.height_m(place));
    if (map && play_m > 0 && map->clearance_m(place) < play_m - k_touch_m) return false;
    return distance_to_outline(job.room.corners_m, place) >= from_walls_m - k_touch_m && (!map || map->fits(place)) &&
           obstruction_around(job.obstructions, job.room, ceiling, opening) == nullptr;
  };
  const auto find_places = [&](double play_m) {
    raster.place_of.assign(static_cast<std::size_t>(raster.columns) * raster.rows, Raster::k_outside);
    parallel_for(raster.rows, [&](int row) {
      for (int column = 0; column < raster.columns; ++column) {
        const Vector2d place = raster.place_m(column, row);
        if (!is_inside(job.room.corners_m, place)) continue;
        raster.place_of[static_cast<std::size_t>(row) * raster.columns + column] =
            fits(place, play_m) ? 0 : Raster::k_taken;
      }
    });
  };
  find_places(k_play_m);
  // Where every bay is too narrow for play, what just fits.
  if (std::ranges::find(raster.place_of, 0) == raster.place_of.end()) find_places(0);
  for (std::size_t cell = 0; cell < raster.place_of.size(); ++cell) {
    if (raster.place_of[cell] != 0) continue;
    raster.place_of[cell] = static_cast<int>(raster.places_m.size());
    const auto columns = static_cast<std::size_t>(raster.columns);
    raster.places_m.push_back(raster.place_m(static_cast<int>(cell % columns), static_cast<int>(cell / columns)));
  }
  return raster;
}

Result<Candidates> candidates(const Job& job, const std::vector<PhotometricFile>& photometry, const Grid& grid,
                              const std::string& type, const Progress& progress) {
  const CanPattern pattern = pattern_of(job);
  Candidates result{.type = type, .raster = raster_of(job, type), .points = static_cast<int>(grid.points_m.size())};
  const Job all = with_candidates(job, pattern, type, result.raster.places_m);
  const Scene scene = build_scene(all, photometry);
  const auto readings = readings_of(with_targets_only(job), scene);
  if (!readings) return tl::unexpected(readings.error());
  const Response table = response(scene, receivers_of(grid, *readings), coarse_mesh(scene), progress);

  Eigen::MatrixXd light_lx = (table.direct_lx + table.indirect_lx) * levels_of(scene).asDiagonal();
  const auto others = static_cast<Eigen::Index>(pattern.others.size());
  const Eigen::Index places = light_lx.cols() - others;
  const Eigen::MatrixXd averages_lx = area_averages_lx(light_lx, result.points, *readings);
  result.light_lx = light_lx.topRightCorner(result.points, places).cast<float>();
  result.base_lx = light_lx.topLeftCorner(result.points, others).rowwise().sum().cast<float>();
  result.averages_lx = averages_lx.rightCols(places);
  result.base_averages_lx = averages_lx.leftCols(others).rowwise().sum();

  std::vector<std::optional<double>> watts;
  std::vector<std::optional<double>> prices;
  for (std::size_t i = 0; i < pattern.others.size(); ++i) {
    watts.push_back(watts_of(scene.luminaires[i]));
    prices.push_back(type_named(job, all.cans[i].type).price);
  }
  result.base_watts = sum_of(watts);
  result.base_cost = sum_of(prices);
  if (places > 0) result.watts = watts_of(scene.luminaires.back());
  result.price = type_named(job, type).price;
  result.least_apart_m = least_apart_m(type_named(job, type));
  return result;
}

}  // namespace evenlit
