#include <fmt/format.h>

#include <algorithm>

#include "comparison_words.hpp"
#include "doubts_text.hpp"
#include "evenlit/base/figures.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/placing/hole_check.hpp"
#include "evenlit/report/comparison_report.hpp"
#include "evenlit/report/plain_text.hpp"
#include "evenlit/report/search_report.hpp"
#include "light_table.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

constexpr const char* k_none = "-";

std::string unmet_cell(const ComparedLayout& row) {
  if (row.wants.empty()) return "nothing is wanted";
  const auto unmet = std::ranges::count_if(row.wants, [](const Want& want) { return !want.is_met(); });
  return unmet == 0 ? "all given" : fmt::format("{} of {} not given", unmet, row.wants.size());
}

/// Without costs, which stand in the second table, each in its job's currency.
Comparison costless(Comparison comparison) {
  for (ComparedLayout& row : comparison.rows) row.cost.reset();
  return comparison;
}

std::string jobs_table(const std::vector<ComparedJob>& jobs) {
  std::string text = heading("What each takes") + fmt::format("{:>3}  {:<24} {:>7} {:>9} {:>9}  {}\n", "No", "Job",
                                                              "Watts", "Cost", "Floor", "What it wants itself");
  int number = 0;
  for (const auto& [job, boxes, grid, row] : jobs) {
    text += fmt::format("{:>3}  {:<24} {:>7} {:>9} {:>9}  {}\n", ++number, name_cell(row),
                        row.watts ? rounded_text(*row.watts) : k_none,
                        row.cost ? money_text(*row.cost, job.currency) : k_none,
                        area_text(row.floor_area_m2, jobs.front().job.units), unmet_cell(row));
  }
  return text;
}

std::string wants_section(const std::vector<ComparedJob>& jobs) {
  std::string text = heading("Verdict");
  int number = 0;
  for (const auto& [job, boxes, grid, row] : jobs) {
    std::string given;
    std::string unmet;
    for (const Want& want : row.wants) {
      std::string& list = want.is_met() ? given : unmet;
      list += (list.empty() ? "" : "; ") + want_text(want, job);
    }
    text += paragraph(fmt::format("No {}, {}:{}{}{}", ++number, name_cell(row),
                                  unmet.empty() ? "" : fmt::format(" not given: {}.", unmet),
                                  given.empty() ? "" : fmt::format(" {}iven: {}.", unmet.empty() ? 'g' : 'G', given),
                                  row.wants.empty() ? " sets no target and wants nothing." : ""));
  }
  const bool is_one_floor = std::ranges::all_of(
      jobs, [&](const ComparedJob& each) { return each.job.room.corners_m == jobs.front().job.room.corners_m; });
  if (!is_one_floor) text += paragraph("The floors differ: averages and power count on different areas.");
  return text;
}

}  // namespace

std::string jobs_text(const std::vector<ComparedJob>& jobs, const Problems& warnings) {
  const Job& first = jobs.front().job;
  const Comparison comparison = comparison_of(jobs);
  const bool are_ceilings_known =
      std::ranges::all_of(jobs, [](const ComparedJob& each) { return is_ceiling_known(each.job); });
  return fmt::format("{} jobs side by side.\n", jobs.size()) +
         light_table(first, costless(comparison), are_ceilings_known) + jobs_table(jobs) + wants_section(jobs) +
         doubts_table(first, comparison.rows) + heading("Before cutting") +
         paragraph("Check the chosen job with evenlit holes.") +
         paragraph(
             "Measure again, look above the ceiling, prove the circuit dead, stand safely; wiring is for a "
             "licensed electrician, under the local code.") +
         warning_section(warnings);
}

}  // namespace evenlit
