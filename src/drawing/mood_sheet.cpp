#include "evenlit/drawing/mood_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>

#include "evenlit/base/figures.hpp"
#include "evenlit/drawing/plan_map.hpp"
#include "evenlit/drawing/text.hpp"
#include "evenlit/job/walls.hpp"
#include "evenlit/moods/circuits.hpp"
#include "light_scale.hpp"
#include "map_sheet.hpp"
#include "panel_sheet.hpp"
#include "plan_light.hpp"
#include "room_plan.hpp"

namespace evenlit {
namespace {

constexpr double k_panel_text = 24;
constexpr double k_panel_figures = 100;
constexpr double k_circuit_line = 34;
constexpr int k_circuits_a_line = 2;

using Moods = std::span<const MoodLight>;

/// A can as a dark disc of which as much is white, clockwise from the top, as it gives of its full light.
std::vector<DrawingItem> level_mark(const Disc& can, double level) {
  const auto& [centre, radius] = can;
  std::vector<DrawingItem> items{Fill{{circle(centre, radius + 2.5)}, k_halo}, Fill{{circle(centre, radius)}, k_dark}};
  if (level >= 1) {
    items.emplace_back(Fill{{circle(centre, radius)}, k_white});
  } else if (level > 0) {
    constexpr int k_steps_around = 72;
    const int steps = 1 + static_cast<int>(level * k_steps_around);
    Polyline sector{centre};
    for (int i = 0; i <= steps; ++i) {
      const double angle = 2 * std::numbers::pi * level * i / steps;
      sector.push_back(centre + radius * Eigen::Vector2d(std::sin(angle), -std::cos(angle)));
    }
    items.emplace_back(Fill{{sector}, k_white});
  }
  items.emplace_back(Stroke{circle(centre, radius), true, 2.4, k_dark, {}});
  return items;
}

/// The cans' holes to scale, but so large that one can see how much of each is white.
std::vector<Disc> level_discs(const Job& job, const PlanView& view) {
  constexpr double k_least_radius = 13;
  std::vector<Disc> discs;
  for (const Can& can : job.cans) {
    const double hole = type_of(job, can).hole_m.value_or(0) * view.units_per_m;
    const Eigen::Vector2d plan_m = plan_position(job.room, can).value();
    discs.push_back({view.at(plan_m), std::max(k_least_radius, hole / 2)});
  }
  return discs;
}

std::vector<DrawingItem> mood_picture(const RoomPlan& plan, const Grid& grid, const MoodLight& mood,
                                      const LightScale& scale) {
  const SampledField field_m = close_field(sampled_field(grid, mood.light.work_plane.field.total_lx));
  const int darkest = mood.light.work_plane.statistics.minimum_at;
  PanelMarks marks{.cans = level_discs(plan.job, plan.view),
                   .can_marks = {},
                   .darkest_m = grid.points_m[static_cast<std::size_t>(darkest)]};
  for (std::size_t i = 0; i < marks.cans.size(); ++i) {
    append(marks.can_marks, level_mark(marks.cans[i], mood.can_levels[i]));
  }
  return panel_picture(
      plan, {painted(field_m, scale), scale.painted(scale.top_lx), field_m, isolux_levels(scale), k_panel_text},
      std::move(marks));
}

std::string kelvin_text(const std::optional<MixedLight>& colour) {
  return colour && colour->tone ? rounded_text(colour->tone->kelvin) : "–";
}

void add_figures(Sheet& sheet, Units units, const MoodLight& mood, const Eigen::Vector2d& corner, double width) {
  const double unit = unit_lx(units);
  const WorkPlaneLight& light = mood.light.work_plane;
  const double minimum_error_lx = light.field.error_lx[light.statistics.minimum_at];
  const std::vector<std::pair<std::string, std::string>> figures{
      {"Avg " + unit_name(units), rounded_text(light.statistics.average_lx / unit, light.average_error_lx / unit)},
      {"Min " + unit_name(units), rounded_text(light.statistics.minimum_lx / unit, minimum_error_lx / unit)},
      {"Watts", mood.watts ? rounded_text(*mood.watts) : "–"},
      {"Kelvin", kelvin_text(mood.colour)}};
  double x = corner.x();
  for (const auto& [name, value] : figures) {
    sheet.write(name, x, corner.y() + 38, k_panel_text, Weight::regular, k_grey);
    sheet.write(value, x, corner.y() + 76, 32, Weight::bold, k_dark);
    x += width / static_cast<double>(figures.size());
  }
}

std::string light_text(double share) {
  if (share == 0) return "off";
  return share < 0.01 ? "< 1 %" : percent_text(share);
}

int circuit_lines(const Job& job) {
  return (static_cast<int>(job.circuits.size()) + k_circuits_a_line - 1) / k_circuits_a_line;
}

/// What each circuit gives, in lines of two.
void add_circuits(Sheet& sheet, const Job& job, const MoodLight& mood, const Eigen::Vector2d& corner, double width) {
  constexpr double k_gap = 10;
  const double column = width / k_circuits_a_line;
  for (std::size_t i = 0; i < job.circuits.size(); ++i) {
    const double x = corner.x() + column * static_cast<double>(i % k_circuits_a_line);
    const double y = corner.y() + k_circuit_line * static_cast<double>(i / k_circuits_a_line + 1) - 10;
    const std::string light = light_text(mood.circuit_light[i]);
    const double for_name = column - 3 * k_gap - text_width(light, k_panel_text, Weight::bold);
    const std::string name = elided(job.circuits[i].name, k_panel_text, Weight::regular, for_name);
    sheet.write(name, x, y, k_panel_text, Weight::regular, k_grey);
    sheet.write(light, x + text_width(name, k_panel_text, Weight::regular) + k_gap, y, k_panel_text, Weight::bold,
                k_dark);
  }
}

std::vector<std::string> lines_below_title(const Job& job, std::size_t all, Moods shown) {
  const std::string first = shown.size() < all ? fmt::format("The first {} of {} moods", shown.size(), all)
                                               : fmt::format("{} {}", all, all == 1 ? "mood" : "moods");
  return {first, fmt::format("Light on the work plane {} above the floor, circuits in percent of their full light",
                             length_text(job.work_plane.height_m, job.units))};
}

/// The colours at even steps of their scale.
LegendEntry colours_entry() {
  constexpr int k_patches = 4;
  constexpr double k_side = 14;
  LegendEntry entry{
      {}, "go by the square root of the light, as eyes judge it, to tell dim moods apart", k_patches * k_side};
  for (int i = 0; i < k_patches; ++i) {
    const double left = (i - 0.5 * k_patches) * k_side;
    const Polyline patch{
        {left, -k_side / 2}, {left + k_side, -k_side / 2}, {left + k_side, k_side / 2}, {left, k_side / 2}};
    entry.mark.emplace_back(Fill{{patch}, {colour_map(static_cast<double>(i) / (k_patches - 1))}});
  }
  return entry;
}

std::vector<LegendEntry> legend(const Job& job) {
  const Disc can{{0, 0}, 13};
  std::vector<LegendEntry> entries{{level_mark(can, 0), "can that is off"},
                                   {level_mark(can, 0.25), "at a quarter of its light"},
                                   {level_mark(can, 1), "at all of it"},
                                   {darkest_mark({0, 0}), "darkest point"}};
  if (!job.joists.empty() || !job.members.empty()) entries.push_back({framing_sample(), "framing"});
  entries.push_back(colours_entry());
  return entries;
}

double brightest_lx(Moods shown) {
  double brightest_lx = 0;
  for (const MoodLight& mood : shown) {
    brightest_lx = std::max(brightest_lx, mood.light.work_plane.statistics.maximum_lx);
  }
  return brightest_lx;
}

double worst_error_share(Moods shown) {
  double worst = 0;
  for (const MoodLight& mood : shown) worst = std::max(worst, worst_error_share(mood.light.work_plane));
  return worst;
}

}  // namespace

Drawing mood_sheet(const Job& job, const std::vector<Box>& boxes, const Grid& grid, const RoomMoods& moods,
                   std::span<const PanelView> views) {
  constexpr int k_of_a_phone = 4;
  const Moods shown = Moods(moods.moods).first(std::min<std::size_t>(moods.moods.size(), k_most_panels));
  const auto count = static_cast<int>(shown.size());
  const LightScale scale{
      .units = job.units, .top_lx = automatic_top_lx(brightest_lx(shown), job.units), .mark_lx = {}, .is_root = true};
  const Polygon& plan_m = job.room.corners_m;
  const double below_plan = k_panel_figures + k_circuit_line * circuit_lines(job);
  const Panels panels = best_panels(count, bounds_of(plan_m).sizes(),
                                    {.most_columns = count <= k_of_a_phone ? 2 : count,
                                     .below_plan = below_plan,
                                     .views = views.first(std::min(views.size(), shown.size()))});
  const Width content{k_map_margin, k_map_margin + panels.content_width()};
  Sheet sheet;
  const Eigen::Vector2d first(
      content.left,
      24 + add_map_heading(sheet, job.room.name, lines_below_title(job, moods.moods.size(), shown), content));
  for (int i = 0; i < count; ++i) {
    const MoodLight& mood = shown[static_cast<std::size_t>(i)];
    const Eigen::Vector2d corner = panels.corner(i, first);
    const PlanView view = panels.view(plan_m, corner);
    const Eigen::Vector2d below(corner.x(), bottom_of(plan_m, view) + k_wall_band);
    add_panel_name(sheet, mood.name, corner, 0, panels.width);
    sheet.add(mood_picture({job, boxes, view}, grid, mood, scale));
    add_figures(sheet, job.units, mood, below, panels.width);
    add_circuits(sheet, job, mood, below + Eigen::Vector2d(0, k_panel_figures), panels.width);
    if (!views.empty()) {
      add_panel_view(sheet, views[static_cast<std::size_t>(i)], below + Eigen::Vector2d(0, below_plan), panels.width);
    }
  }
  const double scale_top = first.y() + panels.content_height() + 70;
  add_map_scale(sheet, scale, content, scale_top);
  const double legend_bottom = add_legend(sheet, legend(job), content, scale_top + 80);
  const double bottom =
      add_map_footer(sheet, job, grid.points_m.size(), worst_error_share(shown), content, legend_bottom + 20);
  return {content.right + k_map_margin, std::ceil(bottom), {255, 255, 255}, std::move(sheet.items)};
}

}  // namespace evenlit
