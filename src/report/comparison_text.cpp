#include <fmt/format.h>

#include <algorithm>

#include "comparison_words.hpp"
#include "doubts_text.hpp"
#include "evenlit/base/figures.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/placing/hole_check.hpp"
#include "evenlit/placing/line.hpp"
#include "evenlit/report/comparison_report.hpp"
#include "evenlit/report/location.hpp"
#include "evenlit/report/plain_text.hpp"
#include "evenlit/report/search_report.hpp"
#include "light_table.hpp"
#include "rules_text.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

constexpr const char* k_none = "-";

std::string spacing_cell(const Layout& layout, int axis, Units units) {
  if (has_spacing(layout, axis)) return length_text(layout.spacing_m[axis], units);
  return (axis == 0 ? layout.columns : layout.rows) > 1 ? "uneven" : k_none;
}

/// Where a part of the plan is, seen from the plan's middle, and its grid.
std::string part_name(const Job& job, const LayoutPart& part) {
  const Eigen::Vector2d from_middle = part.centre_m - bounds_of(job.room.corners_m).center();
  const std::string where = from_middle.norm() < k_touch_m ? "middle" : compass_point(from_middle).initials;
  if (part.columns == 1)
    return fmt::format("    {}: {}", where, part.rows == 1 ? "one" : fmt::format("column of {}", part.rows));
  return fmt::format("    {}: {} {} of {}", where, part.rows, part.rows == 1 ? "row" : "rows", part.columns);
}

std::string parts_rows(const Job& job, const Layout& layout) {
  std::string text;
  for (const LayoutPart& part : layout.parts) {
    const Layout grid{.rows = part.rows, .columns = part.columns, .spacing_m = part.spacing_m};
    text += fmt::format("    {:<24} {:>12} {:>12}\n", part_name(job, part), spacing_cell(grid, 0, job.units),
                        spacing_cell(grid, 1, job.units));
  }
  return text;
}

std::string places_table(const Job& job, const Comparison& comparison) {
  std::string text =
      heading("Where the cans are") + fmt::format("{:>3} {:<24} {:>12} {:>12} {:>12} {:>12}\n", "No", "Layout",
                                                  "Apart E-W", "Apart N-S", "To E/W walls", "To N/S walls");
  int number = 0;
  for (const ComparedLayout& row : comparison.rows) {
    const Layout& layout = row.layout;
    const auto length = [&](bool is_there, double metres) {
      return is_there ? length_text(metres, job.units) : std::string(k_none);
    };
    text += fmt::format("{:>3} {:<24} {:>12} {:>12} {:>12} {:>12}\n", ++number, name_cell(row),
                        spacing_cell(layout, 0, job.units), spacing_cell(layout, 1, job.units),
                        length(row.count() > 0, layout.wall_offset_m.x()),
                        length(row.count() > 0, layout.wall_offset_m.y()));
    if (row.moves.empty()) text += parts_rows(job, layout);
  }
  const bool is_turned = std::ranges::any_of(
      comparison.rows, [](const ComparedLayout& row) { return row.layout.along != Eigen::Vector2d::UnitX(); });
  if (is_turned) text += paragraph("Where walls run aslant, E-W and N-S are along the rows and along the columns.");
  return text + paragraph(fmt::format(
                    "To the walls: from the outermost cans; of the job's own and of moved ones the larger of both "
                    "sides. Even, in parts: half the "
                    "spacing at the walls. Offset, round the walls: {} from the walls unless another distance was "
                    "asked for. Half height: no farther "
                    "apart than half the ceiling's height. All common practice, no source.",
                    length_text(k_usual_wall_offset_m, job.units)));
}

/// Along the layout's rows and along its columns.
std::string shift_text(const Layout& layout, const PartMove& move, Units units) {
  std::string text;
  for (const Eigen::Vector2d& axis : {layout.along, left_of(layout.along)}) {
    const Eigen::Vector2d way = move.by_m.dot(axis) * axis;
    if (way.norm() <= 2 * k_touch_m) continue;
    if (!text.empty()) text += " and ";
    text += fmt::format("{} {}", length_text(way.norm(), units), compass_point(way).initials);
  }
  return text;
}

std::string move_text(const Layout& layout, const PartMove& move, Units units) {
  const std::string shift = shift_text(layout, move, units);
  if (move.part == PartMove::Part::all) return "all " + shift;
  return fmt::format("{} {} by {}", part_word(move.part), move.number, shift);
}

/// What the eye finds of the moves.
std::string looks_text(const ComparedLayout& row) {
  using Symmetry = MovedLayout::Symmetry;
  if (row.moves.front().part == PartMove::Part::can) return "single cans leave their rows";
  if (row.moves.front().part == PartMove::Part::all) {
    return row.symmetry == Symmetry::lost ? "keeps its spacing, no longer centred" : "keeps its spacing";
  }
  std::string text = row.is_spacing_even ? "keeps equal spacing" : "spacing becomes uneven";
  if (row.symmetry == Symmetry::kept) text += row.is_spacing_even ? " and symmetry" : ", still symmetric";
  if (row.symmetry == Symmetry::lost) text += ", no longer symmetric";
  if (!row.is_straight) text += ", no longer straight";
  return text;
}

/// What the moves do to the light.
std::string price_text(const ComparedLayout& before, const ComparedLayout& after, Units units) {
  const auto light = [&](double Statistics::*figure, double ComparedLayout::*error) {
    return light_cell(before.statistics.*figure, before.*error, units) + " -> " +
           light_cell(after.statistics.*figure, after.*error, units);
  };
  return fmt::format("Average {} {unit}, minimum {} {unit}, min/avg {} -> {}.",
                     light(&Statistics::average_lx, &ComparedLayout::average_error_lx),
                     light(&Statistics::minimum_lx, &ComparedLayout::minimum_error_lx),
                     fixed_text(before.statistics.uniformity_min_avg, 2),
                     fixed_text(after.statistics.uniformity_min_avg, 2),
                     fmt::arg("unit", units == Units::imperial ? "fc" : "lx"));
}

std::string moves_of(const ComparedLayout& before, const ComparedLayout& row, bool with_type, Units units) {
  std::string text;
  for (const PartMove& move : row.moves) text += (text.empty() ? "" : ", ") + move_text(row.layout, move, units);
  const std::string type = with_type ? fmt::format(" (\"{}\")", printable(row.layout.type)) : "";
  return fmt::format("{}{}: {}; {}. {}", row.layout.name, type, text, looks_text(row), price_text(before, row, units));
}

/// Nothing where every layout fits as it is.
std::string moves_section(const Job& job, const Comparison& comparison) {
  std::string text;
  for (std::size_t i = 1; i < comparison.rows.size(); ++i) {
    const ComparedLayout& row = comparison.rows[i];
    if (!row.moves.empty())
      text += paragraph(moves_of(comparison.rows[i - 1], row, has_several_types(comparison.rows), job.units));
  }
  const bool is_any_moved = !text.empty();
  for (const std::string& name : comparison.stuck) {
    text += paragraph(fmt::format("{}: moving all, its rows or its columns by up to {} does not clear it.", name,
                                  length_text(k_farthest_shift_m, job.units)));
  }
  if (text.empty()) return text;
  return heading("Moves") + text +
         (is_any_moved
              ? paragraph(fmt::format("The least that clear the holes with {} to spare, or as much on both sides where "
                                      "a gap is narrower. Rows count from the south, columns from the west, cans along "
                                      "the rows from the southwest; what is not named stays.",
                                      length_text(k_play_m, job.units)))
              : "");
}

std::string fewest_sentence(const Job& job, const Comparison& comparison) {
  const std::vector<Want>& wants = comparison.rows.front().wants;
  if (wants.empty()) return "No target is set.";
  if (!job.target_lx || wants.size() > 1) {
    if (!comparison.fewest) return "None of these gives all that is wanted.";
    return fmt::format("The fewest cans here that give all that is wanted: {}, in the layouts marked *.",
                       *comparison.fewest);
  }
  const std::string target = illuminance_both_text(*job.target_lx, 0, job.units);
  if (!comparison.fewest) return fmt::format("None of these reaches {} on average.", target);
  return fmt::format("The fewest cans here that reach {} on average: {}, in the layouts marked *.", target,
                     *comparison.fewest);
}

/// Nothing where no layout has a price, fits and gives what is wanted.
std::string cheapest_sentence(const Job& job, const Comparison& comparison) {
  const ComparedLayout* cheapest = nullptr;
  for (const ComparedLayout& row : comparison.rows) {
    if (!row.gives_all() || !row.cost || row.misfits.value_or(0) > 0) continue;
    if (cheapest == nullptr || *row.cost < *cheapest->cost) cheapest = &row;
  }
  if (cheapest == nullptr) return {};
  return fmt::format(" The cheapest that hits nothing: no {}, {} \"{}\", {} in all.",
                     cheapest - comparison.rows.data() + 1, cheapest->count(), printable(cheapest->layout.type),
                     money_text(*cheapest->cost, job.currency));
}

std::string remarks_section(const Job& job, const Comparison& comparison, const WishedLayouts& wished) {
  std::string text;
  if (comparison.others > 0) {
    text += paragraph(fmt::format(
        "Only cans like most of the job's are laid out; {} more of the job {} in every layout and in its watts.",
        comparison.others, comparison.others == 1 ? "stays" : "stay"));
  }
  if (job.room.corners_m.size() != 4) {
    text += paragraph("Of a grid over all of the plan the places outside of it, or too near to a wall, are dropped.");
  }
  for (const int count : wished.choice.without_layout) {
    text +=
        paragraph(fmt::format("No layout by these rules has {} {} in this plan.", count, count == 1 ? "can" : "cans"));
  }
  if (wished.choice.is_wish_too_close) {
    text += paragraph(fmt::format("Left out: the spacing asked for takes more than {} cans.", k_most_counted));
  }
  for (const std::string& name : wished.not_centred) {
    text += paragraph(fmt::format("Left out, centred as asked a can would leave the room: {}.", name));
  }
  for (const std::string& name : comparison.left_out) {
    text += paragraph(fmt::format("Left out, a can would be inside of an obstruction: {}.", name));
  }
  return text;
}

}  // namespace

std::string comparison_text(const Job& job, const Comparison& comparison, const WishedLayouts& wished,
                            const Problems& warnings) {
  const std::string title =
      has_several_types(comparison.rows)
          ? fmt::format("{}: layouts of several can types side by side.", printable(job.room.name))
          : fmt::format("{}: layouts of \"{}\" side by side.", printable(job.room.name), printable(comparison.type));
  return filled(title, k_columns, 2) + light_table(job, comparison, is_ceiling_known(job)) +
         places_table(job, comparison) + moves_section(job, comparison) + heading("Verdict") +
         paragraph(fewest_sentence(job, comparison) + cheapest_sentence(job, comparison)) +
         remarks_section(job, comparison, wished) + rules_section(job, comparison, wished.rules) +
         doubts_section(job, comparison.rows) + heading("Before cutting") +
         paragraph("The places are on the plan only: write the chosen ones into the job and check evenlit holes.") +
         paragraph(
             "Measure again, look above the ceiling, prove the circuit dead, stand safely; wiring is for a "
             "licensed electrician, under the local code.") +
         warning_section(warnings);
}

}  // namespace evenlit
