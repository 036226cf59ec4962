#include "evenlit/drawing/layout_sheet.hpp"

#include <fmt/format.h>

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <optional>
#include <span>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/drawing/plan_map.hpp"
#include "evenlit/drawing/text.hpp"
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

/// What a panel shows.
struct Shown {
  const Job& job;
  const std::vector<Box>& boxes;
  const Grid& grid;
  const ComparedLayout& layout;
};

using Layouts = std::span<const Shown>;

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

bool is_fewest(const ComparedLayout& layout, std::optional<int> fewest) {
  return layout.gives_all() && layout.count() == fewest;
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

/// What a sheet says besides.
struct SheetWords {
  std::string title;
  std::vector<std::string> lines;   ///< below the title
  std::optional<double> target_lx;  ///< marked on the scale
  std::optional<int> fewest;        ///< `Comparison::fewest`
};

std::string counted_text(std::size_t shown, std::size_t all, const std::string& kind) {
  if (shown < all) return fmt::format("The first {} of {} {}s", shown, all, kind);
  return fmt::format("{} {}{}", shown, kind, shown == 1 ? "" : "s");
}

SheetWords words_of(const Job& job, const Comparison& comparison, std::size_t shown) {
  std::string first = counted_text(shown, comparison.rows.size(), "layout");
  if (const auto target = target_text(job)) first += "  ·  " + *target;
  std::string second =
      fmt::format("Light on the work plane {} above the floor", length_text(job.work_plane.height_m, job.units));
  if (comparison.others > 0) second += fmt::format(", with {} more of the job's cans in each", comparison.others);
  const std::string cans = has_several_types(comparison.rows) ? "several types" : comparison.type;
  return {job.room.name, {fmt::format("{}  ·  cans: {}", first, cans), second}, job.target_lx, comparison.fewest};
}

/// Of the target and the height only what all jobs have.
SheetWords words_of(const std::vector<ComparedJob>& jobs, std::size_t shown) {
  const Job& job = jobs.front().job;
  const auto all = [&](const auto& is_alike) {
    return std::ranges::all_of(jobs, [&](const ComparedJob& each) { return is_alike(each.job); });
  };
  const bool is_one_target = all([&](const Job& each) { return each.target_lx == job.target_lx; });
  const bool is_one_height = all([&](const Job& each) { return each.work_plane.height_m == job.work_plane.height_m; });
  std::string first = counted_text(shown, jobs.size(), "job");
  if (const auto target = target_text(job); target && is_one_target) first += "  ·  " + *target;
  const std::string second = is_one_height ? fmt::format("Light on the work plane {} above the floor",
                                                         length_text(job.work_plane.height_m, job.units))
                                           : "Light on each job's own work plane";
  return {"Jobs side by side", {first, second}, is_one_target ? job.target_lx : std::nullopt, std::nullopt};
}

bool is_any_brighter(Layouts shown, double top_lx) {
  return std::ranges::any_of(shown, [&](const Shown& each) { return each.layout.statistics.maximum_lx > top_lx; });
}

std::vector<LegendEntry> legend(std::optional<int> fewest, Layouts shown, double top_lx) {
  const Units units = shown.front().job.units;
  constexpr double k_radius = 9;
  std::vector<LegendEntry> entries{{can_mark({{0, 0}, k_radius}, false), "can"}};
  if (std::ranges::any_of(shown, [](const Shown& each) { return each.layout.misfits.value_or(0) > 0; })) {
    entries.push_back({can_mark({{0, 0}, k_radius}, true), "can that hits something"});
  }
  entries.push_back({darkest_mark({0, 0}), "darkest point"});
  if (std::ranges::any_of(shown,
                          [](const Shown& each) { return !each.job.joists.empty() || !each.job.members.empty(); })) {
    entries.push_back({framing_sample(), "framing"});
  }
  if (fewest) entries.push_back({number_mark("1", true), "fewest cans that give what is wanted", 2 * k_half_number});
  if (is_any_brighter(shown, top_lx)) {
    const Polyline patch{{-15, -9}, {15, -9}, {15, 9}, {-15, 9}};
    entries.push_back({{Fill{{patch}, {colours(ColourMap::light).back()}}, Stroke{patch, true, 1.2, k_dark, {}}},
                       fmt::format("{} {} and brighter", level_text(top_lx / unit_lx(units)), unit_name(units))});
  }
  return entries;
}

double worst_error_share(Layouts shown) {
  double worst = 0;
  for (const Shown& each : shown) {
    const double average_lx = each.layout.statistics.average_lx;
    if (average_lx > 0) worst = std::max(worst, each.layout.field.error_lx.maxCoeff() / average_lx);
  }
  return worst;
}

/// Where the colours end. A layout of many cans would leave the others all alike and dark: where there is a target,
/// twice as bright is bright enough to be told apart, unless half of the layouts are brighter still.
double sheet_top_lx(const Job& job, Layouts shown) {
  std::vector<double> brightest_lx;
  for (const Shown& each : shown) brightest_lx.push_back(each.layout.statistics.maximum_lx);
  std::ranges::sort(brightest_lx);
  const double middle_lx = brightest_lx[brightest_lx.size() / 2];
  const double wanted_lx = job.target_lx ? std::max(2 * *job.target_lx, middle_lx) : brightest_lx.back();
  return automatic_top_lx(std::min(wanted_lx, brightest_lx.back()), job.units);
}

/// A plan's bounding rectangle, the widest and deepest of all.
Eigen::Vector2d largest_plan_m(Layouts shown) {
  Eigen::Vector2d size_m = Eigen::Vector2d::Zero();
  for (const Shown& each : shown) size_m = size_m.cwiseMax(bounds_of(each.job.room.corners_m).sizes());
  return size_m;
}

void add_panel(Sheet& sheet, const Shown& shown, const std::string& number, const std::string& name, bool is_dark,
               const Panels& panels, const Eigen::Vector2d& corner, double top_lx) {
  const auto& [job, boxes, grid, layout] = shown;
  const Polygon& plan_m = job.room.corners_m;
  const PlanView view = panels.view(plan_m, corner);
  add_panel_heading(sheet, number, name, is_dark, corner, panels.width);
  sheet.add(layout_picture({job, boxes, view}, grid, layout, top_lx));
  add_panel_figures(sheet, job, layout, {corner.x(), bottom_of(plan_m, view) + k_wall_band}, panels.width);
}

Drawing drawn_sheet(Layouts shown, const SheetWords& words, std::span<const PanelView> views) {
  const Job& job = shown.front().job;
  const double top_lx = sheet_top_lx(job, shown);
  const auto count = static_cast<int>(shown.size());
  const Panels panels = best_panels(count, largest_plan_m(shown),
                                    {.most_columns = count,
                                     .below_plan = k_panel_figures,
                                     .views = views.first(std::min(views.size(), shown.size()))});
  const Width content{k_map_margin, k_map_margin + panels.content_width()};
  Sheet sheet;
  const Eigen::Vector2d first(content.left, 24 + add_map_heading(sheet, words.title, words.lines, content));
  const bool with_types = std::ranges::any_of(
      shown, [&](const Shown& each) { return each.layout.layout.type != shown.front().layout.layout.type; });
  std::size_t points = 0;
  for (std::size_t i = 0; i < shown.size(); ++i) {
    const ComparedLayout& layout = shown[i].layout;
    const std::string name = layout.layout.name + (with_types ? ", " + layout.layout.type : "");
    add_panel(sheet, shown[i], std::to_string(i + 1), name, is_fewest(layout, words.fewest), panels,
              panels.corner(static_cast<int>(i), first), top_lx);
    if (!views.empty()) {
      const Eigen::Vector2d corner = panels.corner(static_cast<int>(i), first);
      const double plan_bottom =
          bottom_of(shown[i].job.room.corners_m, panels.view(shown[i].job.room.corners_m, corner));
      add_panel_view(sheet, views[i], {corner.x(), plan_bottom + k_wall_band + k_panel_figures}, panels.width);
    }
    points = std::max(points, shown[i].grid.points_m.size());
  }
  const double scale_top = first.y() + panels.content_height() + 70;
  add_map_scale(sheet, {job.units, top_lx, words.target_lx}, content, scale_top);
  const double legend_bottom = add_legend(sheet, legend(words.fewest, shown, top_lx), content, scale_top + 80);
  const double bottom = add_map_footer(sheet, job, points, worst_error_share(shown), content, legend_bottom + 20);
  return {content.right + k_map_margin, std::ceil(bottom), {255, 255, 255}, std::move(sheet.items)};
}

}  // namespace

Drawing layout_sheet(const Job& job, const std::vector<Box>& boxes, const Grid& grid, const Comparison& comparison,
                     std::span<const PanelView> views) {
  std::vector<Shown> shown;
  for (const ComparedLayout& row : comparison.rows) {
    if (shown.size() < k_most_panels) shown.push_back({job, boxes, grid, row});
  }
  return drawn_sheet(shown, words_of(job, comparison, shown.size()), views);
}

Drawing layout_sheet(const std::vector<ComparedJob>& jobs, std::span<const PanelView> views) {
  std::vector<Shown> shown;
  for (const auto& [job, boxes, grid, row] : jobs) {
    if (shown.size() < k_most_panels) shown.push_back({job, boxes, grid, row});
  }
  return drawn_sheet(shown, words_of(jobs, shown.size()), views);
}

}  // namespace evenlit
