#include "evenlit/drawing/plan_map.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/drawing/floor_light.hpp"
#include "light_scale.hpp"
#include "map_sheet.hpp"
#include "plan_ceiling.hpp"
#include "plan_light.hpp"
#include "plan_readings.hpp"
#include "plan_walls.hpp"
#include "room_plan.hpp"

namespace evenlit {
namespace {

std::string line_below_title(const Job& job) {
  std::string line = std::to_string(job.cans.size()) + (job.cans.size() == 1 ? " can" : " cans");
  if (const auto target = target_text(job)) line += "  ·  " + *target;
  return line + "  ·  work plane " + length_text(job.work_plane.height_m, job.units) + " above the floor";
}

void add_plan(Sheet& sheet, const RoomPlan& plan, const Scene& scene, const WorkPlaneLight& light,
              const SampledField& field_m, double top_lx) {
  const auto& [job, boxes, view] = plan;
  FreeSpace space = free_space(plan);
  const std::vector<Disc> holes = can_discs(job.can_types, job.cans, scene.luminaires, view);
  space.take(holes);
  const std::vector<DrawingItem> darkest = labelled_darkest_mark(light, view, job.units, space);
  const std::vector<DrawingItem> cans = can_marks(holes, space);
  const std::vector<DrawingItem> in_ceiling = ceiling_names(job, view, space);
  const std::vector<DrawingItem> readings = reading_marks(job, view, space);
  sheet.add(wall_dimensions(job.room, view, job.units));
  sheet.add(room_picture(
      plan, {{.field = view.at(field_m), .top = top_lx},
             isolux_lines(field_m, job.room.corners_m, isolux_levels(job, top_lx), view, k_small_text, space),
             readings}));
  sheet.add(wall_names(job.room, view));
  sheet.add(cans);
  sheet.add(in_ceiling);
  sheet.add(darkest);
}

std::vector<MapFigure> figures(const Job& job, const WorkPlaneLight& light) {
  const Statistics& statistics = light.statistics;
  const auto of_light = [&](const std::string& name, double lx, double error_lx) {
    return MapFigure{name, illuminance_text(lx, error_lx, job.units), illuminance_text(lx, error_lx, other(job.units))};
  };
  std::vector<MapFigure> figures{
      of_light("Average", statistics.average_lx, light.average_error_lx),
      of_light("Minimum", statistics.minimum_lx, light.field.error_lx[statistics.minimum_at]),
      {"Uniformity", fixed_text(statistics.uniformity_min_avg, 2), "minimum / average"}};
  if (statistics.share_at_target) {
    figures.push_back({"At target or above", percent_text(*statistics.share_at_target), "of the work plane"});
  } else {
    figures.push_back(of_light("Maximum", statistics.maximum_lx, light.field.error_lx[statistics.maximum_at]));
  }
  return figures;
}

}  // namespace

double automatic_top_lx(double maximum_lx, Units units) {
  if (!(maximum_lx > 0)) return unit_lx(units);
  const double maximum = maximum_lx / unit_lx(units);
  const double decade = std::pow(10.0, std::floor(std::log10(maximum)));
  constexpr double k_rounding = 1e-9;  // a maximum that is round but for noise is its own top
  for (const double factor : {1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 6.0, 7.0, 8.0, 9.0}) {
    if (maximum <= factor * decade * (1 + k_rounding)) return factor * decade * unit_lx(units);
  }
  return 10 * decade * unit_lx(units);
}

Drawing plan_map(const Job& job, const Scene& scene, const WorkPlaneLight& light, const PlanMapOptions& options) {
  const SampledField points_m = options.picture_lx.value_or(sampled_field(light.grid, light.field.total_lx));
  const SampledField field_m = close_field(points_m);
  const double top_lx = map_top_lx(job, light, options);
  Sheet sheet;
  const double heading = add_map_heading(sheet, job.room.name, {line_below_title(job)}, k_map_content);
  const RoomPlan plan{job, scene.boxes, map_view(job.room.corners_m, heading + k_outside_plan)};
  const double plan_bottom = bottom_of(job.room.corners_m, plan.view) + k_outside_plan;
  add_plan(sheet, plan, scene, light, field_m, top_lx);
  add_map_scale(sheet, {job.units, top_lx, job.target_lx}, k_map_content, plan_bottom + 52);
  add_map_figures(sheet, figures(job, light), k_map_content, plan_bottom + 150);
  const double bottom = add_map_footer(sheet, job, light.grid.points_m.size(), worst_error_share(light), k_map_content,
                                       plan_bottom + 270);
  return {k_map_width, std::ceil(bottom), {255, 255, 255}, std::move(sheet.items)};
}

}  // namespace evenlit
