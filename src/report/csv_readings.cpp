#include "evenlit/report/csv_readings.hpp"

#include "csv_name.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/number.hpp"
#include "significant.hpp"

namespace evenlit {
namespace {

std::string value_cell(double value) { return significant_text(value, 4); }

std::string both_units(double lx) { return value_cell(lx) + ',' + value_cell(lx / k_lux_per_footcandle); }

std::string error_cell(double error) { return significant_text(error, 2); }

std::string area_row(const std::string& kind, const AreaReading& reading, const AreaLight& light) {
  const std::string luminance =
      light.luminance_cd_m2 ? value_cell(light.luminance_cd_m2->value) + ',' + error_cell(light.luminance_cd_m2->error)
                            : ",";
  return kind + ',' + csv_name(reading.name) + ',' + value_cell(reading.area_m2) + ',' +
         std::to_string(reading.average.count()) + ',' + both_units(light.average_lx.value) + ',' +
         error_cell(light.average_lx.error) + ',' + both_units(light.minimum_lx.value) + ',' +
         both_units(light.maximum_lx.value) + ',' + fixed_text(light.uniformity_min_avg, 4) + ',' + luminance + '\n';
}

std::string kind_of(Quantity quantity) {
  switch (quantity) {
    case Quantity::illuminance:
      return "illuminance";
    case Quantity::cylindrical_illuminance:
      return "mean cylindrical illuminance";
    case Quantity::luminance:
      return "luminance";
  }
  return {};
}

std::string point_row(const PointReading& reading, const Estimate& value) {
  const std::string start = kind_of(reading.quantity) + ',' + csv_name(reading.name) + ",,1,";
  if (reading.quantity == Quantity::luminance) {
    return start + ",,,,,,,," + value_cell(value.value) + ',' + error_cell(value.error) + '\n';
  }
  return start + both_units(value.value) + ',' + error_cell(value.error) + ",,,,,,,\n";
}

}  // namespace

std::string csv_readings(const ReadingsLight& light) {
  const Readings& readings = light.readings;
  std::string csv =
      "kind,name,area_m2,points,average_lx,average_fc,average_error_lx,minimum_lx,minimum_fc,maximum_lx,maximum_fc,"
      "uniformity,luminance_cd_m2,luminance_error_cd_m2\n";
  for (std::size_t i = 0; i < light.task_areas.size(); ++i) {
    csv += area_row("task area", readings.task_areas[i], light.task_areas[i]);
  }
  for (std::size_t i = 0; i < light.points.size(); ++i) csv += point_row(readings.points[i], light.points[i]);
  for (std::size_t i = 0; i < light.surfaces.size(); ++i) {
    csv += area_row("surface", readings.surfaces[i], light.surfaces[i]);
  }
  return csv;
}

}  // namespace evenlit
