#include "light_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "comparison_words.hpp"
#include "evenlit/base/figures.hpp"
#include "evenlit/base/length.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/report/plain_text.hpp"
#include "evenlit/report/search_report.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

constexpr const char* k_none = "-";

std::string power_cell(const Job& job, const ComparedLayout& row) {
  if (!row.watts) return k_none;
  const double m2_per_area = job.units == Units::imperial ? k_metres_per_foot * k_metres_per_foot : 1;
  return rounded_text(*row.watts / row.floor_area_m2 * m2_per_area);
}

bool is_any_price_known(const Comparison& comparison) {
  return std::ranges::any_of(comparison.rows, [](const ComparedLayout& row) { return row.cost.has_value(); });
}

/// A column of the table of light, after the layout's number and name.
struct Column {
  const char* heading = "";
  int width = 0;
  std::function<std::string(const ComparedLayout&)> cell;
};

/// Where there is a cost it takes the place of the tenth percentile, and where there are several types theirs those of
/// the share at the target and of the power, so that lines do not grow.
std::vector<Column> light_columns(const Job& job, const Comparison& comparison) {
  using Row = ComparedLayout;
  const bool with_types = has_several_types(comparison.rows);
  const bool with_cost = is_any_price_known(comparison);
  const auto light = [&job](double lx, double error_lx) { return light_cell(lx, error_lx, job.units); };
  std::vector<Column> columns;
  if (with_types) {
    columns.push_back({"Type", 12, [](const Row& row) { return shortened(printable(row.layout.type), 12); }});
  }
  columns.push_back({"Cans", 4, [](const Row& row) { return std::to_string(row.count()); }});
  columns.push_back({"Avg", 5, [=](const Row& row) { return light(row.statistics.average_lx, row.average_error_lx); }});
  columns.push_back({"Min", 5, [=](const Row& row) { return light(row.statistics.minimum_lx, row.minimum_error_lx); }});
  columns.push_back({"Min/avg", 7, [](const Row& row) { return fixed_text(row.statistics.uniformity_min_avg, 2); }});
  if (with_cost) {
    columns.push_back(
        {"Cost", 7, [&job](const Row& row) { return row.cost ? money_text(*row.cost, job.currency) : k_none; }});
  } else {
    columns.push_back({"10th", 5, [=](const Row& row) { return light(row.statistics.p10_lx, row.average_error_lx); }});
  }
  if (!with_types) {
    columns.push_back({"Target", with_cost ? 6 : 7, [](const Row& row) {
                         const auto& share = row.statistics.share_at_target;
                         return share ? percent_text(*share) : k_none;
                       }});
    columns.push_back({job.units == Units::imperial ? "W/ft2" : "W/m2", with_cost ? 5 : 6,
                       [&job](const Row& row) { return power_cell(job, row); }});
  }
  columns.push_back({"Hits", 4, [](const Row& row) { return row.misfits ? std::to_string(*row.misfits) : k_none; }});
  return columns;
}

/// What stands below the table.
std::string light_words(const Job& job, const Comparison& comparison, bool are_ceilings_known) {
  const bool with_cost = is_any_price_known(comparison);
  return paragraph(fmt::format(
      "Avg, Min{}: {} on the work plane{}.{} Hits: holes that do not fit{}.", with_cost ? "" : ", 10th",
      job.units == Units::imperial ? "foot-candles" : "lux", with_cost ? "" : "; a tenth of it is darker than 10th",
      has_several_types(comparison.rows) ? "" : " Target: the part of it at or above the target.",
      are_ceilings_known ? "" : ", as far as walls and other cans tell: the job says nothing of joists"));
}

}  // namespace

std::string light_table(const Job& job, const Comparison& comparison, bool are_ceilings_known) {
  const std::vector<Column> columns = light_columns(job, comparison);
  std::string text = fmt::format("\n{:>3}  {:<24}", "No", "Layout");
  for (const Column& column : columns) text += fmt::format(" {:>{}}", column.heading, column.width);
  int number = 0;
  for (const ComparedLayout& row : comparison.rows) {
    const bool is_fewest = row.gives_all() && row.count() == comparison.fewest;
    text += fmt::format("\n{:>3}{} {:<24}", ++number, is_fewest ? '*' : ' ', name_cell(row));
    for (const Column& column : columns) text += fmt::format(" {:>{}}", column.cell(row), column.width);
  }
  return text + '\n' + light_words(job, comparison, are_ceilings_known);
}

}  // namespace evenlit
