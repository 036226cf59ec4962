#include <fmt/format.h>

#include "csv_name.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/report/comparison_report.hpp"
#include "significant.hpp"

namespace evenlit {
namespace {

std::string value_cell(double value) { return significant_text(value, 4); }

std::string both_units(double lx) { return value_cell(lx) + ',' + value_cell(lx / k_lux_per_footcandle); }

std::string length_cell(bool is_there, double metres) { return is_there ? fixed_text(metres, 3) : ""; }

std::string place_cells(const ComparedLayout& row) {
  const Layout& layout = row.layout;
  const auto count = [](int value) { return value > 0 ? std::to_string(value) : std::string{}; };
  return fmt::format("{},{},{},{},{},{},{},{}", csv_name(layout.name), row.count(), count(layout.rows),
                     count(layout.columns), length_cell(has_spacing(layout, 0), layout.spacing_m.x()),
                     length_cell(has_spacing(layout, 1), layout.spacing_m.y()),
                     length_cell(row.count() > 0, layout.wall_offset_m.x()),
                     length_cell(row.count() > 0, layout.wall_offset_m.y()));
}

std::string power_cells(const ComparedLayout& row) {
  if (!row.watts) return ",,";
  constexpr double k_m2_per_ft2 = k_metres_per_foot * k_metres_per_foot;
  const double watts_per_m2 = *row.watts / row.floor_area_m2;
  return value_cell(*row.watts) + ',' + value_cell(watts_per_m2) + ',' + value_cell(watts_per_m2 * k_m2_per_ft2);
}

}  // namespace

std::string comparison_csv(const Comparison& comparison) {
  std::string csv =
      "layout,cans,rows,columns,spacing_x_m,spacing_y_m,wall_offset_x_m,wall_offset_y_m,average_lx,average_fc,"
      "average_error_lx,minimum_lx,minimum_fc,uniformity,p10_lx,p10_fc,share_at_target,watts,watts_per_m2,"
      "watts_per_ft2,misfits,type,cost\n";
  for (const ComparedLayout& row : comparison.rows) {
    const Statistics& s = row.statistics;
    csv += place_cells(row) + ',' + both_units(s.average_lx) + ',' + significant_text(row.average_error_lx, 2) + ',' +
           both_units(s.minimum_lx) + ',' + fixed_text(s.uniformity_min_avg, 4) + ',' + both_units(s.p10_lx) + ',' +
           (s.share_at_target ? fixed_text(*s.share_at_target, 4) : "") + ',' + power_cells(row) + ',' +
           (row.misfits ? std::to_string(*row.misfits) : "") + ',' + csv_name(row.layout.type) + ',' +
           (row.cost ? fixed_text(*row.cost, 2) : "") + '\n';
  }
  return csv;
}

}  // namespace evenlit
