#include <fmt/format.h>

#include <algorithm>

#include "comparison_words.hpp"
#include "doubts_text.hpp"
#include "evenlit/base/figures.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/placing/hole_check.hpp"
#include "evenlit/report/location.hpp"
#include "evenlit/report/plain_text.hpp"
#include "evenlit/report/search_report.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

using Kind = SearchedLayout::Kind;

constexpr const char* k_none = "-";

/// The largest shortfall, as a table has room for it.
std::string short_cell(const ComparedLayout& figures) {
  if (figures.wants.empty()) return k_none;
  const Want& worst = *std::ranges::max_element(figures.wants, {}, &Want::shortfall);
  if (worst.is_met()) return "nothing";
  const auto name = [&]() -> std::string {
    switch (worst.kind) {
      case Want::Kind::average:
        return "avg";
      case Want::Kind::minimum:
        return "min";
      case Want::Kind::uniformity:
        return "even";
      case Want::Kind::watts:
        return "watts";
      case Want::Kind::cost:
        return "cost";
      case Want::Kind::task_area:
        break;
    }
    return shortened(printable(worst.task_area), 6);
  }();
  const double part = worst.shortfall();
  return fmt::format("{} {}", name, part < 0.01 ? "<1 %" : percent_text(part));
}

char mark_of(const SearchResult& result, std::size_t i) {
  if (i == result.cheapest) return '*';
  return result.layouts[i].is_choice ? '+' : ' ';
}

bool has_several_types(const SearchResult& result) {
  return std::ranges::any_of(result.layouts, [&](const SearchedLayout& layout) {
    return layout.figures.layout.type != result.layouts.front().figures.layout.type;
  });
}

std::string layouts_table(const Job& job, const SearchResult& result) {
  const bool with_types = has_several_types(result);
  const int name_width = with_types ? 15 : 18;
  // Where there are several types, theirs take the place of the watts.
  const auto type_cell = [&](const std::string& type) {
    return with_types ? fmt::format(" {:<9}", shortened(printable(type), 9)) : std::string{};
  };
  const auto watts_cell = [&](const std::string& watts) {
    return with_types ? std::string{} : fmt::format(" {:>5}", watts);
  };
  std::string text =
      fmt::format("\n   #   {:<{}}{} {:>4} {:>6} {:>6} {:>7}{} {:>7}  {}\n", "Layout", name_width, type_cell("Type"),
                  "Cans", "Avg", "Min", "Min/avg", watts_cell("Watts"), "Cost", "Short of");
  for (std::size_t i = 0; i < result.layouts.size(); ++i) {
    const auto& [kind, figures, bound_lx, is_choice] = result.layouts[i];
    const Statistics& s = figures.statistics;
    text +=
        fmt::format("  {:>2} {} {:<{}}{} {:>4} {:>6} {:>6} {:>7}{} {:>7}  {}\n", i + 1, mark_of(result, i),
                    shortened(figures.layout.name, name_width), name_width, type_cell(figures.layout.type),
                    figures.count(), light_cell(s.average_lx, figures.average_error_lx, job.units),
                    light_cell(s.minimum_lx, figures.minimum_error_lx, job.units), fixed_text(s.uniformity_min_avg, 2),
                    watts_cell(figures.watts ? rounded_text(*figures.watts) : k_none),
                    figures.cost ? money_text(*figures.cost, job.currency) : k_none, short_cell(figures));
  }
  return text + paragraph(fmt::format(
                    "Avg, Min: {} on the work plane. * the cheapest in rows that gives all that is wanted. + worth "
                    "weighing: no other in rows costs less or gives more light at the darkest point or is more even "
                    "without being worse in one of these. {}",
                    job.units == Units::imperial ? "foot-candles" : "lux",
                    result.are_prices_known ? "" : "Cheaper means fewer cans: not all can types have a price."));
}

std::string title_of(const SearchResult& result, std::size_t i) {
  const ComparedLayout& figures = result.layouts[i].figures;
  const std::string type = has_several_types(result) ? fmt::format(" \"{}\"", printable(figures.layout.type)) : "";
  return fmt::format("no {}, {} {}{}", i + 1, figures.count(), figures.count() == 1 ? "can" : "cans", type);
}

std::string unmet_text(const Job& job, const ComparedLayout& figures) {
  std::string text;
  for (const Want& want : figures.wants) {
    if (!want.is_met()) text += (text.empty() ? "" : "; ") + want_text(want, job);
  }
  if (figures.misfits.value_or(0) > 0) {
    text += fmt::format("{}{} of its holes do not fit", text.empty() ? "" : "; ", *figures.misfits);
  }
  return text;
}

/// The one that falls short of what is wanted by the least.
std::size_t nearest_of(const SearchResult& result) {
  const auto least = std::ranges::min_element(result.layouts, {}, [](const SearchedLayout& layout) {
    return std::pair(layout.figures.misfits.value_or(0) > 0, shortfall(layout.figures.wants));
  });
  return static_cast<std::size_t>(least - result.layouts.begin());
}

std::string verdict_section(const Job& job, const SearchResult& result) {
  std::string text = heading("Verdict");
  if (result.layouts.front().figures.wants.empty()) {
    return text + paragraph("Nothing is wanted: set target, or a table [wanted], to be told what is enough.");
  }
  if (!result.cheapest) {
    const std::size_t nearest = nearest_of(result);
    return text + paragraph(fmt::format("Nothing found gives all that is wanted. Nearest is {}: {}.",
                                        title_of(result, nearest), unmet_text(job, result.layouts[nearest].figures)));
  }
  const SearchedLayout& best = result.layouts[*result.cheapest];
  text += paragraph(fmt::format("The cheapest in rows that gives all that is wanted: {}{}.",
                                title_of(result, *result.cheapest),
                                best.figures.cost ? ", " + money_text(*best.figures.cost, job.currency) : ""));
  const auto price = [&](const SearchedLayout& layout) {
    return result.are_prices_known ? *layout.figures.cost : layout.figures.count();
  };
  for (std::size_t i = 0; i < result.layouts.size(); ++i) {
    const SearchedLayout& layout = result.layouts[i];
    if (layout.kind == Kind::free || price(layout) >= price(best)) continue;
    const std::string why = unmet_text(job, layout.figures);
    if (!why.empty()) text += paragraph(fmt::format("Why not {}: {}.", title_of(result, i), why));
  }
  return text;
}

std::string spacing_text(const Layout& layout, int axis, Units units) {
  return has_spacing(layout, axis) ? length_text(layout.spacing_m[axis], units) : k_none;
}

std::string places_section(const Job& job, const SearchResult& result) {
  std::string text =
      heading("Where the cans are") + fmt::format("   #   {:<18} {:>12} {:>12} {:>13} {:>13}\n", "Layout", "Apart E-W",
                                                  "Apart N-S", "To E/W walls", "To N/S walls");
  for (std::size_t i = 0; i < result.layouts.size(); ++i) {
    const Layout& layout = result.layouts[i].figures.layout;
    text +=
        fmt::format("  {:>2} {} {:<18} {:>12} {:>12} {:>13} {:>13}\n", i + 1, mark_of(result, i), layout.name,
                    spacing_text(layout, 0, job.units), spacing_text(layout, 1, job.units),
                    length_text(layout.wall_offset_m.x(), job.units), length_text(layout.wall_offset_m.y(), job.units));
  }
  text += paragraph("To the walls: from the outermost cans, the larger of both sides.");
  if (!result.cheapest) return text;
  text += fmt::format("\n  Of no {}, from the walls:\n", *result.cheapest + 1);
  for (const Eigen::Vector2d& place : result.layouts[*result.cheapest].figures.layout.positions_m) {
    text += "    " + mark_text(job.room, place, job.units) + '\n';
  }
  return text;
}

std::string free_section(const Job& job, const SearchResult& result) {
  std::string text;
  for (std::size_t i = 0; i < result.layouts.size(); ++i) {
    const auto& [kind, figures, bound_lx, is_choice] = result.layouts[i];
    if (kind != Kind::free) continue;
    text += fmt::format("  {:<44} {:>8} {:>12}\n", title_of(result, i),
                        light_cell(figures.statistics.minimum_lx, figures.minimum_error_lx, job.units),
                        light_cell(bound_lx, 0.005 * bound_lx, job.units));
  }
  if (text.empty()) return text;
  return heading("Without rows") + fmt::format("  {:<44} {:>8} {:>12}\n", "", "Min", "at most") + text +
         paragraph(
             "What the darkest point gains where cans may go anywhere that they fit. At most: proved, within the "
             "accuracy of the search: no choice of so many of its places makes the darkest point brighter. The "
             "truth lies between.");
}

std::string what_if_section(const Job& job, const SearchResult& result) {
  std::vector<ComparedLayout> rows;
  for (const SearchedLayout& layout : result.layouts) rows.push_back(layout.figures);
  return doubts_section(job, rows);
}

std::string method_section(const Job& job, const SearchResult& result) {
  std::string text =
      heading("How it was searched") +
      paragraph(fmt::format("{} places of a {} raster where a can fits by itself; {} layouts in even rows and columns "
                            "on them, {}.",
                            result.places, length_text(result.step_m, job.units), result.looked_at,
                            result.is_whole ? "which are all there are" : "then it was stopped: there are more"));
  if (result.others > 0) {
    text +=
        paragraph(fmt::format("Only cans like most of the job's are laid out and counted; {} more of the job {} in "
                              "every layout and in its light, watts and cost.",
                              result.others, result.others == 1 ? "stays" : "stay"));
  }
  if (!is_ceiling_known(job)) {
    text += paragraph("The job says nothing of joists: holes clear walls, boxes and other cans only.");
  }
  for (const std::string& type : result.without_hole) {
    text += paragraph(fmt::format(
        "\"{}\" has no hole in the job: its places were held against nothing above the ceiling.", printable(type)));
  }
  for (const std::string& type : result.without_place) {
    text += paragraph(fmt::format("\"{}\" fits nowhere: evenlit holes tells what it hits.", printable(type)));
  }
  return text;
}

}  // namespace

std::string search_text(const Job& job, const SearchResult& result, const Problems& warnings) {
  return filled(fmt::format("{}: the best layouts found.", printable(job.room.name)), k_columns, 2) +
         layouts_table(job, result) + verdict_section(job, result) + places_section(job, result) +
         free_section(job, result) + what_if_section(job, result) + method_section(job, result) +
         heading("Before cutting") +
         paragraph(
             "A calculation chooses by light and framing alone: mind doors, fans, furniture and what looks "
             "right. Check the chosen layout with evenlit holes.") +
         paragraph(
             "Measure again, look above the ceiling, prove the circuit dead, stand safely; wiring is for a "
             "licensed electrician, under the local code.") +
         warning_section(warnings);
}

}  // namespace evenlit
