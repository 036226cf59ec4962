#include "evenlit/drawing/layout_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/drawing/plan_map.hpp"
#include "evenlit/placing/hole_check.hpp"
#include "light_scale.hpp"
#include "map_sheet.hpp"
#include "panel_sheet.hpp"
#include "plan_light.hpp"
#include "room_plan.hpp"

namespace evenlit {
namespace {

constexpr double k_panel_figures = 92;
constexpr double k_half_number = 20;  // half the width of the box around a layout's number

using Layouts = std::span<const ComparedLayout>;

/// A layout's number in a box.
std::vector<DrawingItem> number_mark(const std::string& number, bool is_dark) {
  constexpr double k_half_height = 16;
  const Polyline box{{-k_half_number, -k_half_height},
                     {k_half_number, -k_half_height},
                     {k_half_number, k_half_height},
                     {-k_half_number, k_half_height}};
  Text text = centred_text(number, {0, 0}, k_small_text, Weight::bold);
  if (is_dark) text.ink = k_white;
  return {Fill{{box}, is_dark ? k_dark : k_white}, Stroke{box, true, 2, k_dark, {}}, text};
}

bool is_fewest(const ComparedLayout& layout, const Comparison& comparison) {
  return layout.gives_all() && layout.count() == comparison.fewest;
}

/// For each can whether it does not fit.
std::vector<bool> misfit_flags(const Job& job, const ComparedLayout& layout) {
  std::vector<bool> flags(layout.cans.size(), false);
  if (layout.misfits.value_or(0) == 0) return flags;
  Job laid_out = job;
  laid_out.cans = layout.cans;
  for (const int can : misfits(laid_out)) flags[static_cast<std::size_t>(can)] = true;
  return flags;
}

std::vector<DrawingItem> layout_picture(const RoomPlan& plan, const Grid& grid, const ComparedLayout& layout,
                                        double top_lx) {
  const Job& job = plan.job;
  const SampledField field_m = close_field(sampled_field(grid, layout.field.total_lx));
  PanelMarks marks{.cans = can_discs(job.can_types, layout.cans, layout.luminaires, plan.view),
                   .can_marks = {},
                   .darkest_m = grid.points_m[static_cast<std::size_t>(layout.statistics.minimum_at)]};
  const std::vector<bool> amiss = misfit_flags(job, layout);
  for (std::size_t i = 0; i < marks.cans.size(); ++i) append(marks.can_marks, can_mark(marks.cans[i], amiss[i]));
  return panel_picture(plan, {field_m, top_lx, field_m, isolux_levels(job, top_lx), k_smallest_text}, std::move(marks));
}

void add_panel_heading(Sheet& sheet, const std::string& number, const std::string& name, bool is_dark,
                       const Eigen::Vector2d& corner, double width) {
  constexpr double k_after_number = 2 * k_half_number + 14;
  sheet.add(moved(number_mark(number, is_dark), corner + Eigen::Vector2d(k_half_number, k_panel_heading_middle)));
  add_panel_name(sheet, name, corner, k_after_number, width);
}

void add_panel_figures(Sheet& sheet, const Job& job, const ComparedLayout& layout, const Eigen::Vector2d& corner,
                       double width) {
  const double unit = unit_lx(job.units);
  const Statistics& s = layout.statistics;
  const std::string unit_text = unit_name(job.units);
  const std::vector<std::pair<std::string, std::string>> figures{
      {"Cans", std::to_string(layout.count())},
      {"Avg " + unit_text, rounded_text(s.average_lx / unit, layout.average_error_lx / unit)},
      {"Min " + unit_text, rounded_text(s.minimum_lx / unit, layout.minimum_error_lx / unit)},
      {"Min/avg", fixed_text(s.uniformity_min_avg, 2)},
      {"Hits", layout.misfits ? std::to_string(*layout.misfits) : "–"}};
  double x = corner.x();
  for (const auto& [name, value] : figures) {
    sheet.write(name, x, corner.y() + 38, k_smallest_text, Weight::regular, k_grey);
    sheet.write(value, x, corner.y() + 72, 28, Weight::bold, k_dark);
    x += width / static_cast<double>(figures.size());
  }
}

std::vector<std::string> lines_below_title(const Job& job, const Comparison& comparison, Layouts shown) {
  std::string first = shown.size() < comparison.rows.size()
                          ? fmt::format("The first {} of {} layouts", shown.size(), comparison.rows.size())
                          : fmt::format("{} {}", shown.size(), shown.size() == 1 ? "layout" : "layouts");
  if (const auto target = target_text(job)) first += "  ·  " + *target;
  std::string second =
      fmt::format("Light on the work plane {} above the floor", length_text(job.work_plane.height_m, job.units));
  if (comparison.others > 0) second += fmt::format(", with {} more of the job's cans in each", comparison.others);
  return {fmt::format("{}  ·  cans: {}", first, comparison.type), second};
}

bool is_any_brighter(Layouts shown, double top_lx) {
  return std::ranges::any_of(shown,
                             [&](const ComparedLayout& layout) { return layout.statistics.maximum_lx > top_lx; });
}

std::vector<LegendEntry> legend(const Job& job, const Comparison& comparison, Layouts shown, double top_lx) {
  constexpr double k_radius = 9;
  std::vector<LegendEntry> entries{{can_mark({{0, 0}, k_radius}, false), "can"}};
  if (std::ranges::any_of(shown, [](const ComparedLayout& layout) { return layout.misfits.value_or(0) > 0; })) {
    entries.push_back({can_mark({{0, 0}, k_radius}, true), "can that hits something"});
  }
  entries.push_back({darkest_mark({0, 0}), "darkest point"});
  if (!job.joists.empty() || !job.members.empty()) entries.push_back({framing_sample(), "framing"});
  if (comparison.fewest)
    entries.push_back({number_mark("1", true), "fewest cans that give what is wanted", 2 * k_half_number});
  if (is_any_brighter(shown, top_lx)) {
    const Polyline patch{{-15, -9}, {15, -9}, {15, 9}, {-15, 9}};
    entries.push_back(
        {{Fill{{patch}, {colours(ColourMap::light).back()}}, Stroke{patch, true, 1.2, k_dark, {}}},
         fmt::format("{} {} and brighter", level_text(top_lx / unit_lx(job.units)), unit_name(job.units))});
  }
  return entries;
}

double worst_error_share(Layouts shown) {
  double worst = 0;
  for (const ComparedLayout& layout : shown) {
    const double average_lx = layout.statistics.average_lx;
    if (average_lx > 0) worst = std::max(worst, layout.field.error_lx.maxCoeff() / average_lx);
  }
  return worst;
}

/// Where the colours end. A layout of many cans would leave the others all alike and dark: where there is a target,
/// twice as bright is bright enough to be told apart, unless half of the layouts are brighter still.
double sheet_top_lx(const Job& job, Layouts shown) {
  std::vector<double> brightest_lx;
  for (const ComparedLayout& layout : shown) brightest_lx.push_back(layout.statistics.maximum_lx);
  std::ranges::sort(brightest_lx);
  const double middle_lx = brightest_lx[brightest_lx.size() / 2];
  const double wanted_lx = job.target_lx ? std::max(2 * *job.target_lx, middle_lx) : brightest_lx.back();
  return automatic_top_lx(std::min(wanted_lx, brightest_lx.back()), job.units);
}

}  // namespace

Drawing layout_sheet(const Job& job, const std::vector<Box>& boxes, const Grid& grid, const Comparison& comparison) {
  const Layouts shown = Layouts(comparison.rows).first(std::min<std::size_t>(comparison.rows.size(), k_most_panels));
  const double top_lx = sheet_top_lx(job, shown);
  const Polygon& plan_m = job.room.corners_m;
  const auto count = static_cast<int>(shown.size());
  const Panels panels = best_panels(count, plan_m, {.most_columns = count, .below_plan = k_panel_figures});
  const Width content{k_map_margin, k_map_margin + panels.content_width()};
  Sheet sheet;
  const Eigen::Vector2d first(
      content.left, 24 + add_map_heading(sheet, job.room.name, lines_below_title(job, comparison, shown), content));
  for (std::size_t i = 0; i < shown.size(); ++i) {
    const Eigen::Vector2d corner = panels.corner(static_cast<int>(i), first);
    const PlanView view = panels.view(plan_m, corner);
    const double plan_bottom = bottom_of(plan_m, view) + k_wall_band;
    add_panel_heading(sheet, std::to_string(i + 1), shown[i].layout.name, is_fewest(shown[i], comparison), corner,
                      panels.width);
    sheet.add(layout_picture({job, boxes, view}, grid, shown[i], top_lx));
    add_panel_figures(sheet, job, shown[i], {corner.x(), plan_bottom}, panels.width);
  }
  const double scale_top = first.y() + panels.content_height() + 70;
  add_map_scale(sheet, {job.units, top_lx, job.target_lx}, content, scale_top);
  const double legend_bottom = add_legend(sheet, legend(job, comparison, shown, top_lx), content, scale_top + 80);
  const double bottom =
      add_map_footer(sheet, job, grid.points_m.size(), worst_error_share(shown), content, legend_bottom + 20);
  return {content.right + k_map_margin, std::ceil(bottom), {255, 255, 255}, std::move(sheet.items)};
}

}  // namespace evenlit
