#include <cmath>

#include "csv_name.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/report/meter_report.hpp"
#include "significant.hpp"

namespace evenlit {
namespace {

std::string both_units(double lx) {
  return significant_text(lx, 4) + ',' + significant_text(lx / k_lux_per_footcandle, 4);
}

}  // namespace

std::string meter_csv(const MeterCheck& check) {
  std::string csv =
      "name,line,reading_lx,reading_fc,predicted_lx,predicted_fc,predicted_error_lx,difference,residual,outlier,"
      "suspect_can\n";
  for (std::size_t i = 0; i < check.readings.size(); ++i) {
    const ComparedReading& compared = check.fit.readings[i];
    csv += csv_name(check.readings[i].point.name) + ',' + std::to_string(check.readings[i].origin.place.line) + ',' +
           both_units(check.readings[i].lx) + ',' + both_units(compared.predicted_lx) + ',' +
           significant_text(check.error_lx[static_cast<Eigen::Index>(i)], 2) + ',' +
           (compared.deviation ? fixed_text(*compared.deviation, 3) + ',' + fixed_text(compared.residual, 3) : ",") +
           ',' + (compared.is_outlier ? "yes" : "no") + ',' +
           (compared.suspect ? std::to_string(compared.suspect->can + 1) : "") + '\n';
  }
  return csv;
}

}  // namespace evenlit
