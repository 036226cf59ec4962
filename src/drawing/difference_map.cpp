#include "evenlit/drawing/difference_map.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/base/figures.hpp"
#include "evenlit/drawing/plan_map.hpp"
#include "light_scale.hpp"
#include "map_sheet.hpp"
#include "plan_labels.hpp"
#include "plan_light.hpp"
#include "plan_walls.hpp"
#include "room_plan.hpp"

namespace evenlit {
namespace {

/// What changes at the grid's points.
struct Change {
  Eigen::VectorXd lx;
  Eigen::VectorXd error_lx;  ///< of both layouts together
  Eigen::Index gain_at = 0;  ///< where it is largest
  Eigen::Index loss_at = 0;  ///< where it is smallest

  [[nodiscard]] bool gains() const { return lx[gain_at] > 0; }
  [[nodiscard]] bool loses() const { return lx[loss_at] < 0; }
  [[nodiscard]] double largest_lx() const { return std::max(lx[gain_at], -lx[loss_at]); }
};

/// The first point that is as extreme up to rounding: in a symmetric room several are, and which one is marked must not
/// depend on the machine.
Eigen::Index first_at(const Eigen::VectorXd& lx, double extreme_lx) {
  constexpr double k_rounding = 1e-5;
  const double near_lx = k_rounding * lx.cwiseAbs().maxCoeff();
  return std::find_if(lx.begin(), lx.end(), [&](double value) { return std::abs(value - extreme_lx) <= near_lx; }) -
         lx.begin();
}

Change change_between(const Field& before, const Field& after) {
  Change change{after.total_lx - before.total_lx, after.error_lx + before.error_lx};
  change.gain_at = first_at(change.lx, change.lx.maxCoeff());
  change.loss_at = first_at(change.lx, change.lx.minCoeff());
  return change;
}

/// The painted fields' difference, so that what two maps show is what this one shows.
SampledField change_field(const Grid& grid, const Field& before, const Field& after) {
  SampledField change = close_field(sampled_field(grid, after.total_lx));
  const SampledField taken = close_field(sampled_field(grid, before.total_lx));
  for (std::size_t i = 0; i < change.values.size(); ++i) change.values[i] -= taken.values[i];
  return change;
}

/// Where the colours end: not below a tenth of the brighter average, lest what hardly anybody sees be painted like a
/// great change (common practice, no source).
double change_top_lx(const Change& change, const ComparedLayout& before, const ComparedLayout& after, Units units) {
  const double average_lx = std::max(before.statistics.average_lx, after.statistics.average_lx);
  return automatic_top_lx(std::max(change.largest_lx(), average_lx / 10), units);
}

std::string signed_text(double lx, double error_lx, Units units) {
  const std::string size = illuminance_text(std::abs(lx), error_lx, units);
  if (size.find_first_of("123456789") == std::string::npos) return "0 " + unit_name(units);
  return (lx < 0 ? "−" : "+") + size;
}

std::vector<Isolux> change_levels(double top_lx, Units units) {
  std::vector<Isolux> levels;
  for (const double value : levels_of_change(top_lx / unit_lx(units))) {
    levels.push_back({value * unit_lx(units), signed_level_text(value), value == 0, value < 0});
  }
  return levels;
}

std::vector<DrawingItem> before_mark(const Disc& can) {
  return {Stroke{circle(can.centre, can.radius), true, 6, k_halo, {}},
          Stroke{circle(can.centre, can.radius), true, 2.4, k_dark, {}}};
}

/// Smaller than the ring, so that both show where a can stays.
std::vector<DrawingItem> after_mark(const Disc& can) {
  constexpr double k_share = 0.62;
  return {Fill{{circle(can.centre, k_share * can.radius + 2)}, k_halo},
          Fill{{circle(can.centre, k_share * can.radius)}, k_dark}};
}

/// A triangle that points up for more, down for less.
std::vector<DrawingItem> extreme_mark(const Eigen::Vector2d& at, bool is_gain) {
  const double up = is_gain ? -1 : 1;
  const auto triangle = [&](double size) {
    return Polyline{at + size * Eigen::Vector2d(0, up), at + size * Eigen::Vector2d(0.9, -0.7 * up),
                    at + size * Eigen::Vector2d(-0.9, -0.7 * up)};
  };
  return {Fill{{triangle(17)}, k_white}, Fill{{triangle(10)}, k_dark}};
}

void add_extreme(std::vector<DrawingItem>& items, const Eigen::Vector2d& at, double lx, double error_lx, Units units,
                 FreeSpace& space) {
  constexpr double k_radius = 14;
  append(items, extreme_mark(at, lx > 0));
  add_label(label_beside(signed_text(lx, error_lx, units), {at, k_radius}, Weight::bold, space), space, items);
}

std::vector<DrawingItem> extremes(const Grid& grid, const Change& change, const RoomPlan& plan, FreeSpace& space) {
  constexpr double k_radius = 14;
  const auto at = [&](Eigen::Index point) {
    return plan.view.at(Eigen::Vector2d(grid.points_m[static_cast<std::size_t>(point)]));
  };
  std::vector<Eigen::Index> points;
  if (change.gains()) points.push_back(change.gain_at);
  if (change.loses()) points.push_back(change.loss_at);
  for (const Eigen::Index point : points) space.take({{at(point), k_radius}});
  std::vector<DrawingItem> items;
  for (const Eigen::Index point : points) {
    add_extreme(items, at(point), change.lx[point], change.error_lx[point], plan.job.units, space);
  }
  return items;
}

void add_plan(Sheet& sheet, const RoomPlan& plan, const Grid& grid, const Change& change, const SampledField& field_m,
              double top_lx, const ComparedLayout& before, const ComparedLayout& after,
              const std::vector<CanType>& types_after) {
  const auto& [job, boxes, view] = plan;
  const std::vector<Disc> rings = can_discs(job.can_types, before.cans, before.luminaires, view);
  const std::vector<Disc> full = can_discs(types_after, after.cans, after.luminaires, view);
  FreeSpace space = free_space(plan);
  space.take(rings);
  space.take(full);
  const std::vector<DrawingItem> marks = extremes(grid, change, plan, space);
  sheet.add(wall_dimensions(job.room, view, job.units));
  sheet.add(room_picture(
      plan, {{.field = view.at(field_m), .top = top_lx, .bottom = -top_lx, .colours = ColourMap::change},
             isolux_lines(field_m, job.room.corners_m, change_levels(top_lx, job.units), view, k_small_text, space),
             {}}));
  sheet.add(wall_names(job.room, view));
  for (const Disc& can : rings) sheet.add(before_mark(can));
  for (const Disc& can : full) sheet.add(after_mark(can));
  sheet.add(marks);
}

std::vector<MapFigure> figures(const Job& job, const Change& change, const ComparedLayout& before,
                               const ComparedLayout& after) {
  const auto of_light = [&](const std::string& name, double lx, double error_lx) {
    return MapFigure{name, signed_text(lx, error_lx, job.units), signed_text(lx, error_lx, other(job.units))};
  };
  const auto extreme = [&](const std::string& name, bool exists, Eigen::Index at) {
    return exists ? of_light(name, change.lx[at], change.error_lx[at]) : MapFigure{name, "none", "anywhere"};
  };
  const double brighter = (change.lx.array() > change.error_lx.array()).cast<double>().mean();
  return {of_light("Average change", after.statistics.average_lx - before.statistics.average_lx,
                   after.average_error_lx + before.average_error_lx),
          extreme("Largest gain", change.gains(), change.gain_at),
          extreme("Largest loss", change.loses(), change.loss_at),
          {"Brighter", percent_text(brighter), "of the work plane"}};
}

std::string layout_text(const ComparedLayout& layout, int index) {
  return std::to_string(index + 1) + ": " + layout.layout.name + ", " + std::to_string(layout.count()) +
         (layout.count() == 1 ? " can" : " cans");
}

std::vector<LegendEntry> legend(const ComparedLayout& before, const ComparedLayout& after, const LayoutPair& pair,
                                const Change& change) {
  const Disc can{{0, 0}, 10};
  std::vector<LegendEntry> entries{{before_mark(can), layout_text(before, pair.before)},
                                   {after_mark(can), layout_text(after, pair.after)}};
  if (change.gains()) entries.push_back({extreme_mark({0, 0}, true), "largest gain"});
  if (change.loses()) entries.push_back({extreme_mark({0, 0}, false), "largest loss"});
  return entries;
}

double error_share(const Change& change, const ComparedLayout& before) {
  const double average_lx = before.statistics.average_lx;
  return average_lx > 0 ? change.error_lx.maxCoeff() / average_lx : 0;
}

/// @param types_after can types of the cans after; those before are the job's
Drawing drawn_change(const Job& job, const std::vector<Box>& boxes, const Grid& grid, const ComparedLayout& before,
                     const ComparedLayout& after, const std::vector<CanType>& types_after, const LayoutPair& pair) {
  const Change change = change_between(before.field, after.field);
  const double top_lx = change_top_lx(change, before, after, job.units);
  Sheet sheet;
  const std::string title = job.room.name + ": layout " + std::to_string(pair.after + 1) + " against layout " +
                            std::to_string(pair.before + 1);
  const double heading = add_map_heading(sheet, title,
                                         {"Brighter (+) and darker (−) on the work plane " +
                                          length_text(job.work_plane.height_m, job.units) + " above the floor"},
                                         k_map_content);
  const RoomPlan plan{job, boxes, map_view(job.room.corners_m, heading + k_outside_plan)};
  const double plan_bottom = bottom_of(job.room.corners_m, plan.view) + k_outside_plan;
  add_plan(sheet, plan, grid, change, change_field(grid, before.field, after.field), top_lx, before, after,
           types_after);
  add_map_scale(sheet, {job.units, top_lx, {}, -top_lx, ColourMap::change}, k_map_content, plan_bottom + 52);
  const double legend_bottom = add_legend(sheet, legend(before, after, pair, change), k_map_content, plan_bottom + 132);
  add_map_figures(sheet, figures(job, change, before, after), k_map_content, legend_bottom + 24);
  const double bottom =
      add_map_footer(sheet, job, grid.points_m.size(), error_share(change, before), k_map_content, legend_bottom + 144);
  return {k_map_width, std::ceil(bottom), {255, 255, 255}, std::move(sheet.items)};
}

}  // namespace

Drawing difference_map(const Job& job, const std::vector<Box>& boxes, const Grid& grid, const Comparison& comparison,
                       const LayoutPair& pair) {
  return drawn_change(job, boxes, grid, comparison.rows[static_cast<std::size_t>(pair.before)],
                      comparison.rows[static_cast<std::size_t>(pair.after)], job.can_types, pair);
}

Drawing difference_map(const std::vector<ComparedJob>& jobs, const LayoutPair& pair) {
  const auto& [job, boxes, grid, before] = jobs[static_cast<std::size_t>(pair.before)];
  const ComparedJob& after = jobs[static_cast<std::size_t>(pair.after)];
  return drawn_change(job, boxes, grid, before, after.row, after.job.can_types, pair);
}

}  // namespace evenlit
