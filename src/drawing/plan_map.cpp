#include "evenlit/drawing/plan_map.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/drawing/isolux.hpp"
#include "evenlit/drawing/text.hpp"
#include "isolux_lines.hpp"
#include "light_scale.hpp"
#include "plan_light.hpp"
#include "plan_readings.hpp"
#include "plan_view.hpp"
#include "plan_walls.hpp"
#include "sheet.hpp"

namespace evenlit {
namespace {

constexpr double k_sheet_width = 1200;
constexpr double k_margin = 44;
constexpr double k_content_width = k_sheet_width - 2 * k_margin;
constexpr double k_tallest_plan = 960;
constexpr double k_plan_top = 128 + k_outside_plan;
constexpr double k_smallest_text = 18;

void add_title(Sheet& sheet, const Job& job) {
  constexpr double k_title_size = 40;
  sheet.write(elided(job.room.name, k_title_size, Weight::bold, k_content_width), k_margin, 74, k_title_size,
              Weight::bold, k_dark);
  std::string line = std::to_string(job.cans.size()) + (job.cans.size() == 1 ? " can" : " cans");
  if (job.target_lx) {
    line += "  ·  target " + level_text(*job.target_lx / unit_lx(job.units)) + " " + unit_name(job.units) + " (" +
            illuminance_text(*job.target_lx, 0, other(job.units)) + ")";
  }
  line += "  ·  work plane " + length_text(job.work_plane.height_m, job.units) + " above the floor";
  sheet.write(line, k_margin, 112, 22, Weight::regular, k_grey);
}

PlanView view_of(const Polygon& plan_m) {
  const Eigen::AlignedBox2d box = bounds_of(plan_m);
  const double scale =
      std::min((k_content_width - 2 * k_outside_plan) / box.sizes().x(), k_tallest_plan / box.sizes().y());
  const double left = (k_sheet_width - scale * box.sizes().x()) / 2;
  return {scale, Eigen::Vector2d(left - scale * box.min().x(), k_plan_top + scale * box.max().y())};
}

double bottom_of(const Polygon& plan_m, const PlanView& view) {
  double bottom = 0;
  for (const Eigen::Vector2d& corner : plan_m) bottom = std::max(bottom, view.at(corner).y());
  return bottom;
}

// The target first, so that its label finds the best place; a round level that is the target is not drawn twice.
std::vector<Isolux> isolux_levels(const Job& job, double top_lx) {
  const double unit = unit_lx(job.units);
  std::vector<Isolux> levels;
  if (job.target_lx && *job.target_lx > 0) {
    levels.push_back({*job.target_lx, "target " + level_text(*job.target_lx / unit), true});
  }
  for (const double value : round_levels(top_lx / unit)) {
    const bool is_target = job.target_lx && std::abs(value * unit - *job.target_lx) < 1e-3 * value * unit;
    if (!is_target) levels.push_back({value * unit, level_text(value), false});
  }
  return levels;
}

void add_plan(Sheet& sheet, const Job& job, const Scene& scene, const WorkPlaneLight& light, const PlanView& view,
              const SampledField& field_m, double top_lx) {
  const Polygon& plan_m = job.room.corners_m;
  const Polyline outline = view.at(plan_m);
  FreeSpace space(outline);
  const std::vector<Disc> holes = can_discs(job, scene, view);
  space.take(holes);
  space.take(filled_box_discs(scene.boxes, light.grid.height_m, view));
  const std::vector<DrawingItem> darkest = darkest_mark(light, view, job.units, space);
  const std::vector<DrawingItem> cans = can_marks(holes, space);
  const std::vector<DrawingItem> readings = reading_marks(job, view, space);
  sheet.add(wall_dimensions(job.room, view, job.units));
  sheet.items.emplace_back(FalseColour{view.at(field_m), top_lx, {outline}});
  sheet.add(framing_lines(job, view));
  sheet.add(isolux_lines(field_m, plan_m, isolux_levels(job, top_lx), view, k_small_text, space));
  sheet.add(margin_line(plan_m, job.work_plane.margin_m, view));
  sheet.add(box_marks(scene.boxes, light.grid.height_m, view));
  sheet.add(readings);
  sheet.add(walls(job.room, view));
  sheet.add(cans);
  sheet.add(darkest);
}

void add_figures(Sheet& sheet, const Job& job, const WorkPlaneLight& light, double top) {
  const Statistics& statistics = light.statistics;
  const double dark_error_lx = light.field.error_lx[statistics.minimum_at];
  const double bright_error_lx = light.field.error_lx[statistics.maximum_at];
  constexpr double k_column = k_content_width / 4;
  int column = 0;
  const auto add_figure = [&](const std::string& name, const std::string& value, const std::string& note) {
    const double x = k_margin + k_column * column++;
    sheet.write(name, x, top + 18, k_small_text, Weight::regular, k_grey);
    sheet.write(value, x, top + 60, 36, Weight::bold, k_dark);
    sheet.write(note, x, top + 90, k_small_text, Weight::regular, k_grey);
  };
  const auto add_light = [&](const std::string& name, double lx, double error_lx) {
    add_figure(name, illuminance_text(lx, error_lx, job.units), illuminance_text(lx, error_lx, other(job.units)));
  };
  add_light("Average", statistics.average_lx, light.average_error_lx);
  add_light("Minimum", statistics.minimum_lx, dark_error_lx);
  add_figure("Uniformity", fixed_text(statistics.uniformity_min_avg, 2), "minimum / average");
  if (statistics.share_at_target) {
    add_figure("At target or above", percent_text(*statistics.share_at_target), "of the work plane");
  } else {
    add_light("Maximum", statistics.maximum_lx, bright_error_lx);
  }
}

void add_footer(Sheet& sheet, const WorkPlaneLight& light, bool has_margin, double top) {
  sheet.line(k_margin, top, k_sheet_width - k_margin, top, 1.2, k_light_grey);
  sheet.write("Calculated at " + std::to_string(light.grid.points_m.size()) +
                  (has_margin ? " points inside the dotted line." : " points of the work plane.") +
                  " Numerical error ≤ " + error_percent_text(worst_error_share(light)) + " of the average at each.",
              k_margin, top + 34, k_smallest_text, Weight::regular, k_grey);
  sheet.write(
      "Before cutting a hole, find the joists, wires and pipes behind the ceiling. Wiring is for a licensed "
      "electrician.",
      k_margin, top + 60, k_smallest_text, Weight::regular, k_grey);
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
  const double maximum_lx =
      std::max(light.statistics.maximum_lx, *std::max_element(points_m.values.begin(), points_m.values.end()));
  const int steps = 2 * std::clamp(60 / std::max(points_m.columns, points_m.rows), 1, 6);
  const SampledField field_m = smoothed(points_m, steps);
  const double top_lx = options.top_lx.value_or(automatic_top_lx(maximum_lx, job.units));
  const PlanView view = view_of(job.room.corners_m);
  const double plan_bottom = bottom_of(job.room.corners_m, view) + k_outside_plan;
  Sheet sheet;
  add_title(sheet, job);
  add_plan(sheet, job, scene, light, view, field_m, top_lx);
  add_light_scale(sheet, {job.units, top_lx, job.target_lx},
                  {k_margin, k_margin + 46, k_sheet_width - k_margin - 24, plan_bottom + 52, k_small_text});
  add_figures(sheet, job, light, plan_bottom + 150);
  add_footer(sheet, light, job.work_plane.margin_m > 0, plan_bottom + 270);
  return {k_sheet_width, std::ceil(plan_bottom + 270 + 60 + 36), {255, 255, 255}, std::move(sheet.items)};
}

}  // namespace evenlit
