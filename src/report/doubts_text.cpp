#include "doubts_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <tuple>

#include "comparison_words.hpp"
#include "evenlit/base/figures.hpp"
#include "evenlit/report/plain_text.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

const char* doubt_text(Doubt doubt) {
  switch (doubt) {
    case Doubt::dark_finishes:
      return "darker finishes";
    case Doubt::aged_lamps:
      return "aged lamps";
    case Doubt::cans_off_place:
      return "cans off their places";
    case Doubt::dead_can:
      return "a dead can";
    case Doubt::dark_and_aged:
      break;
  }
  return "both darker finishes and aged lamps";
}

/// From the least of all cases, the one as drawn included, to the most.
std::string range_cell(const ComparedLayout& row, Estimate DoubtedLight::*figure, const Estimate& as_drawn,
                       Units units) {
  Estimate least = as_drawn;
  Estimate most = as_drawn;
  const auto by_value = [](const Estimate& a, const Estimate& b) { return a.value < b.value; };
  for (const DoubtedLight& light : *row.doubts) {
    least = std::min(least, light.*figure, by_value);
    most = std::max(most, light.*figure, by_value);
  }
  return light_cell(least.value, least.error, units) + "-" + light_cell(most.value, most.error, units);
}

std::string gives_cell(const std::vector<Want>& wants, bool gives_all) {
  if (wants.empty()) return "-";
  return gives_all ? "yes" : "no";
}

std::ptrdiff_t cases_given(const ComparedLayout& row) {
  return std::ranges::count_if(*row.doubts, [](const DoubtedLight& each) { return each.gives_all(); });
}

bool is_sure(const ComparedLayout& row) { return row.gives_all() && cases_given(row) == std::ssize(*row.doubts); }

/// Of the layouts of a count the surest: the one that gives what is wanted in most cases; of equal ones one that hits
/// nothing, then the one that falls short by the least as drawn.
const ComparedLayout& surest(const std::vector<ComparedLayout>& rows, int count) {
  const auto merit = [&](const ComparedLayout& row) {
    return std::tuple(row.count() == count, cases_given(row), row.gives_all(), -row.misfits.value_or(0),
                      -shortfall(row.wants));
  };
  return *std::ranges::max_element(rows, {}, merit);
}

std::string title_of(const std::vector<ComparedLayout>& rows, const ComparedLayout& row) {
  const std::string type = has_several_types(rows) ? fmt::format(", \"{}\"", printable(row.layout.type)) : "";
  return fmt::format("{} {} (no {}, {}{})", row.count(), row.count() == 1 ? "can" : "cans", &row - rows.data() + 1,
                     row.layout.name, type);
}

std::string joined(const std::vector<std::string>& names, const std::string& last) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) text += i + 1 == names.size() ? fmt::format(" {} ", last) : ", ";
    text += names[i];
  }
  return text;
}

/// The cases in which a layout that gives what is wanted as drawn no longer does. Both together say nothing where one
/// of them is enough.
std::string lost_text(const ComparedLayout& row) {
  std::vector<std::string> lost;
  bool is_either_lost = false;
  for (const DoubtedLight& light : *row.doubts) {
    if (light.gives_all() || (light.doubt == Doubt::dark_and_aged && is_either_lost)) continue;
    is_either_lost = is_either_lost || light.doubt == Doubt::dark_finishes || light.doubt == Doubt::aged_lamps;
    lost.emplace_back(doubt_text(light.doubt));
  }
  return joined(lost, "or");
}

std::string sure_sentence(const std::vector<ComparedLayout>& rows) {
  std::optional<int> fewest;
  for (const ComparedLayout& row : rows) {
    if (is_sure(row)) fewest = std::min(fewest.value_or(row.count()), row.count());
  }
  if (!fewest) return "No layout here gives it in every case.";
  return fmt::format("The fewest that give it in every case: {}.", title_of(rows, surest(rows, *fewest)));
}

std::string fewest_sentences(const std::vector<ComparedLayout>& rows, const ComparedLayout& row) {
  if (is_sure(row)) return fmt::format("Decided: {}: all that is wanted in every case.", title_of(rows, row));
  return fmt::format("A toss-up: {}: all that is wanted as drawn, but not with {}. {}", title_of(rows, row),
                     lost_text(row), sure_sentence(rows));
}

std::string fewer_sentence(const std::vector<ComparedLayout>& rows, const ComparedLayout& row) {
  const double part = shortfall(row.wants);
  return fmt::format(" Next fewer, {}: not even as drawn, at best {} short.", title_of(rows, row),
                     part < 0.01 ? "less than 1 %" : percent_text(part));
}

/// Nothing where it is sure, which is told already.
std::string more_sentence(const std::vector<ComparedLayout>& rows, const ComparedLayout& row) {
  if (is_sure(row)) return {};
  return fmt::format(" Next more, {}: not {}.", title_of(rows, row),
                     row.gives_all() ? fmt::format("with {}", lost_text(row)) : "even as drawn");
}

std::string verdict(const std::vector<ComparedLayout>& rows) {
  if (rows.front().wants.empty()) return "Nothing is wanted: no layout can fall short of it.";
  std::set<int> counts;
  std::optional<int> fewest;
  for (const ComparedLayout& row : rows) {
    counts.insert(row.count());
    if (row.gives_all()) fewest = std::min(fewest.value_or(row.count()), row.count());
  }
  if (!fewest) return "No layout here gives all that is wanted, even as drawn.";
  const ComparedLayout& row = surest(rows, *fewest);
  std::string text = fewest_sentences(rows, row);
  const auto at = counts.find(*fewest);
  if (at != counts.begin()) text += fewer_sentence(rows, surest(rows, *std::prev(at)));
  if (std::next(at) != counts.end() && !is_sure(row)) text += more_sentence(rows, surest(rows, *std::next(at)));
  return text;
}

}  // namespace

std::string doubts_table(const Job& job, const std::vector<ComparedLayout>& rows) {
  if (!std::ranges::all_of(rows, [](const ComparedLayout& row) { return row.doubts.has_value(); })) return {};
  std::string text =
      heading("What if") + fmt::format("{:>3} {:<24} {:>10} {:>10} {:>3} {:>4} {:>4} {:>4} {:>4} {:>4}\n", "No",
                                       "Layout", "Avg", "Min", "Now", "Dark", "Aged", "Off", "Dead", "Both");
  int number = 0;
  for (const ComparedLayout& row : rows) {
    text += fmt::format(
        "{:>3} {:<24} {:>10} {:>10} {:>3}", ++number, name_cell(row),
        range_cell(row, &DoubtedLight::average_lx, {row.statistics.average_lx, row.average_error_lx}, job.units),
        range_cell(row, &DoubtedLight::minimum_lx, {row.statistics.minimum_lx, row.minimum_error_lx}, job.units),
        gives_cell(row.wants, row.gives_all()));
    for (const DoubtedLight& light : *row.doubts)
      text += fmt::format(" {:>4}", gives_cell(light.wants, light.gives_all()));
    text += '\n';
  }
  return text +
         paragraph(fmt::format(
             "Avg, Min: the range in {}. Then whether all that is wanted is given. Now: as drawn; Dark: every surface "
             "reflects {:.0f} points of a hundred less; Aged: the lamps give {:.0f} % of the job's light (common "
             "practice, no source); Off: every can laid out is up to {} off, each the worst way for each figure, "
             "which is a bound; Dead: one can is dark, the one that is missed most; Both: Dark and Aged.",
             job.units == Units::imperial ? "foot-candles" : "lux", 100 * k_darker, 100 * k_aged,
             length_text(k_off_place_m, job.units)));
}

std::string doubts_section(const Job& job, const std::vector<ComparedLayout>& rows) {
  const std::string table = doubts_table(job, rows);
  return table.empty() ? table : table + paragraph(verdict(rows));
}

}  // namespace evenlit
