#include <fmt/format.h>

#include <cmath>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/placing/hole_check.hpp"
#include "evenlit/report/comparison_report.hpp"
#include "evenlit/report/location.hpp"
#include "evenlit/report/plain_text.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

constexpr const char* k_none = "-";

std::string light_cell(double lx, double error_lx, Units units) {
  const double unit_lx = units == Units::imperial ? k_lux_per_footcandle : 1;
  return rounded_text(lx / unit_lx, error_lx / unit_lx);
}

std::string power_cell(const Job& job, const Comparison& comparison, const ComparedLayout& row) {
  if (!row.watts) return k_none;
  const double m2_per_area = job.units == Units::imperial ? k_metres_per_foot * k_metres_per_foot : 1;
  return rounded_text(*row.watts / comparison.floor_area_m2 * m2_per_area);
}

/// In a table a moved layout stands below the one that it was.
std::string name_cell(const ComparedLayout& row) { return row.moves.empty() ? row.layout.name : "  moved"; }

std::string light_table(const Job& job, const Comparison& comparison) {
  const bool is_imperial = job.units == Units::imperial;
  std::string text =
      fmt::format("\n{:>3}  {:<24} {:>4} {:>5} {:>5} {:>7} {:>5} {:>7} {:>6} {:>4}\n", "No", "Layout", "Cans", "Avg",
                  "Min", "Min/avg", "10th", "Target", is_imperial ? "W/ft2" : "W/m2", "Hits");
  int number = 0;
  for (const ComparedLayout& row : comparison.rows) {
    const bool is_fewest = row.gives_all() && row.count() == comparison.fewest;
    const Statistics& s = row.statistics;
    text +=
        fmt::format("{:>3}{} {:<24} {:>4} {:>5} {:>5} {:>7} {:>5} {:>7} {:>6} {:>4}\n", ++number, is_fewest ? '*' : ' ',
                    name_cell(row), row.count(), light_cell(s.average_lx, row.average_error_lx, job.units),
                    light_cell(s.minimum_lx, row.minimum_error_lx, job.units), fixed_text(s.uniformity_min_avg, 2),
                    light_cell(s.p10_lx, row.average_error_lx, job.units),
                    s.share_at_target ? percent_text(*s.share_at_target) : k_none, power_cell(job, comparison, row),
                    row.misfits ? std::to_string(*row.misfits) : k_none);
  }
  return text +
         paragraph(fmt::format("Avg, Min, 10th: {} on the work plane; a tenth of it is darker than 10th. Target: "
                               "the part of it at or above the target. Hits: holes that do not fit{}.",
                               is_imperial ? "foot-candles" : "lux",
                               is_ceiling_known(job) ? ""
                                                     : ", as far as walls and other cans tell: the job "
                                                       "says nothing of joists"));
}

std::string spacing_cell(const Layout& layout, int axis, Units units) {
  if (has_spacing(layout, axis)) return length_text(layout.spacing_m[axis], units);
  return (axis == 0 ? layout.columns : layout.rows) > 1 ? "uneven" : k_none;
}

std::string places_table(const Job& job, const Comparison& comparison) {
  std::string text =
      heading("Where the cans are") + fmt::format("  {:<24} {:>12} {:>12} {:>13} {:>13}\n", "Layout", "Apart E-W",
                                                  "Apart N-S", "To E/W walls", "To N/S walls");
  for (const ComparedLayout& row : comparison.rows) {
    const Layout& layout = row.layout;
    const auto length = [&](bool is_there, double metres) {
      return is_there ? length_text(metres, job.units) : std::string(k_none);
    };
    text += fmt::format("  {:<24} {:>12} {:>12} {:>13} {:>13}\n", name_cell(row), spacing_cell(layout, 0, job.units),
                        spacing_cell(layout, 1, job.units), length(row.count() > 0, layout.wall_offset_m.x()),
                        length(row.count() > 0, layout.wall_offset_m.y()));
  }
  return text + paragraph(fmt::format(
                    "To the walls: from the outermost cans; of the job's own and of moved ones the larger of both "
                    "sides. Even: half the "
                    "spacing at the walls. Offset, round the walls: {} from the walls. Half height: no farther "
                    "apart than half the ceiling's height. All common practice, no source.",
                    length_text(k_usual_wall_offset_m, job.units)));
}

std::string shift_text(const PartMove& move, Units units) {
  std::string text;
  for (const Eigen::Vector2d& way : {Eigen::Vector2d(move.by_m.x(), 0), Eigen::Vector2d(0, move.by_m.y())}) {
    if (way.norm() <= k_touch_m) continue;
    if (!text.empty()) text += " and ";
    text += fmt::format("{} {}", length_text(way.norm(), units), compass_point(way).initials);
  }
  return text;
}

std::string move_text(const PartMove& move, Units units) {
  const std::string shift = shift_text(move, units);
  if (move.part == PartMove::Part::all) return "all " + shift;
  return fmt::format("{} {} {}", move.part == PartMove::Part::row ? "row" : "column", move.number, shift);
}

std::string moves_of(const ComparedLayout& row, Units units) {
  std::string text;
  for (const PartMove& move : row.moves) text += (text.empty() ? "" : ", ") + move_text(move, units);
  return fmt::format("{}: {}.", row.layout.name, text);
}

/// Nothing where every layout fits as it is.
std::string moves_section(const Job& job, const Comparison& comparison) {
  std::string text;
  for (const ComparedLayout& row : comparison.rows) {
    if (!row.moves.empty()) text += paragraph(moves_of(row, job.units));
  }
  const bool is_any_moved = !text.empty();
  for (const std::string& name : comparison.stuck) {
    text += paragraph(fmt::format("{}: moving all, its rows or its columns by up to {} does not clear it.", name,
                                  length_text(k_farthest_shift_m, job.units)));
  }
  if (text.empty()) return text;
  return heading("Moves") + text +
         (is_any_moved ? paragraph("The least that clear the holes: they leave no play on one side. Rows count from "
                                   "the south, columns from the west; "
                                   "what is not named stays.")
                       : "");
}

std::string fewest_sentence(const Job& job, const Comparison& comparison) {
  if (!job.target_lx) return "No target is set.";
  const std::string target = illuminance_both_text(*job.target_lx, 0, job.units);
  if (!comparison.fewest) return fmt::format("None of these reaches {} on average.", target);
  return fmt::format("The fewest cans here that reach {} on average: {}, in the layouts marked *.", target,
                     *comparison.fewest);
}

std::string remarks_section(const Job& job, const Comparison& comparison, const std::vector<int>& without_layout) {
  std::string text;
  if (comparison.others > 0) {
    text += paragraph(fmt::format(
        "Only cans like most of the job's are laid out; {} more of the job {} in every layout and in its watts.",
        comparison.others, comparison.others == 1 ? "stays" : "stay"));
  }
  if (job.room.corners_m.size() != 4) {
    text += paragraph("Of each grid the places outside of the plan, or too near to a wall, are dropped.");
  }
  for (const int count : without_layout) {
    text +=
        paragraph(fmt::format("No layout by these rules has {} {} in this plan.", count, count == 1 ? "can" : "cans"));
  }
  for (const std::string& name : comparison.left_out) {
    text += paragraph(fmt::format("Left out, a can would be inside of an obstruction: {}.", name));
  }
  return text;
}

}  // namespace

std::string comparison_text(const Job& job, const Comparison& comparison, const std::vector<int>& without_layout,
                            const Problems& warnings) {
  const std::string title =
      fmt::format("{}: layouts of \"{}\" side by side.", printable(job.room.name), printable(comparison.type));
  return filled(title, k_columns, 2) + light_table(job, comparison) + places_table(job, comparison) +
         moves_section(job, comparison) + heading("Verdict") + paragraph(fewest_sentence(job, comparison)) +
         remarks_section(job, comparison, without_layout) + heading("Before cutting") +
         paragraph("The places are on the plan only: write the chosen ones into the job and check evenlit holes.") +
         paragraph(
             "Measure again, look above the ceiling, prove the circuit dead, stand safely; wiring is for a "
             "licensed electrician, under the local code.") +
         warning_section(warnings);
}

}  // namespace evenlit
