#include "rules_text.hpp"

#include <fmt/format.h>

#include <cmath>

#include "comparison_words.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

constexpr const char* k_none = "-";

std::string above_cell(const std::optional<double>& above) {
  if (!above) return k_none;
  const double percent = std::round(100 * *above);
  return percent == 0 ? "0 %" : fmt::format("{:+.0f} %", percent);
}

/// What somebody who trusts the rule should know.
std::string verdict_cell(const RuleResult& result) {
  if (!result.above_target) return k_none;
  if (!result.row->gives_all()) return "falls short";
  const int more = result.more_than_fewest.value_or(0);
  if (more <= 0) return "as few as any";
  return fmt::format("{} more than needed", more);
}

std::string row_text(const Job& job, const RuleOfThumb& rule, const RuleResult& result) {
  const auto number = [](const std::optional<int>& value) { return value ? std::to_string(*value) : k_none; };
  const ComparedLayout* row = result.row;
  return fmt::format("  {:<17} {:>5} {:>8} {:>6} {:>6} {:>9}  {}\n", rule.name, number(rule.count),
                     row != nullptr ? std::to_string(row->count()) : k_none,
                     row != nullptr ? light_cell(row->statistics.average_lx, row->average_error_lx, job.units) : k_none,
                     row != nullptr ? light_cell(row->statistics.minimum_lx, row->minimum_error_lx, job.units) : k_none,
                     above_cell(result.above_target), verdict_cell(result));
}

}  // namespace

std::string rules_section(const Job& job, const Comparison& comparison, const std::vector<RuleOfThumb>& rules) {
  if (rules.empty()) return {};
  std::string text = heading("Rules of thumb beside the light") +
                     fmt::format("  {:<17} {:>5} {:>8} {:>6} {:>6} {:>9}  {}\n", "Rule", "Cans", "Laid out", "Avg",
                                 "Min", "To target", "Verdict");
  std::string reckoning;
  for (const RuleOfThumb& rule : rules) {
    const RuleResult result = result_of(rule, comparison, job.target_lx);
    text += row_text(job, rule, result);
    std::string lacks = rule.lacks.empty() ? "" : " " + rule.lacks;
    if (rule.layout && result.row == nullptr) lacks = " Its layout has a can inside of an obstruction.";
    reckoning += paragraph(fmt::format("{}: {}{}", rule.name, rule.reckoning, lacks));
  }
  return text + reckoning +
         paragraph(
             "All are common practice, no source, but for the definitions of the spacing criterion and the "
             "lumen method. Laid out: the next count that can be spaced nearly square.");
}

}  // namespace evenlit
