#include "readings_json.hpp"

namespace evenlit {
namespace {

/// The reading at full level of each can alone.
Json per_can(const Reading& reading, const Response& response) {
  const Eigen::MatrixXd rows = response.direct_lx.middleRows(reading.first, reading.count()) +
                               response.indirect_lx.middleRows(reading.first, reading.count());
  return numbers(rows.transpose() * reading.weights);
}

Json place(const Receiver& receiver) {
  return {{"x_m", length(receiver.position_m.x())},
          {"y_m", length(receiver.position_m.y())},
          {"height_m", length(receiver.position_m.z())}};
}

Json area(const AreaReading& reading, const AreaLight& light, const ReadingsLight& all, bool with_cans) {
  Json json{{"name", reading.name},
            {"area_m2", number(reading.area_m2)},
            {"points", reading.average.count()},
            {"average_lx", number(light.average_lx.value)},
            {"average_error_lx", number(light.average_lx.error)},
            {"minimum_lx", number(light.minimum_lx.value)},
            {"minimum_error_lx", number(light.minimum_lx.error)},
            {"minimum_at", place(all.readings.receivers[light.minimum_at])},
            {"maximum_lx", number(light.maximum_lx.value)},
            {"maximum_error_lx", number(light.maximum_lx.error)},
            {"uniformity_minimum_over_average", number(light.uniformity_min_avg)}};
  if (light.luminance_cd_m2) {
    json["average_luminance_cd_m2"] = number(light.luminance_cd_m2->value);
    json["average_luminance_error_cd_m2"] = number(light.luminance_cd_m2->error);
  }
  if (with_cans) json["full_level_average_lx"] = per_can(reading.average, all.response);
  return json;
}

Json areas(const std::vector<AreaReading>& readings, const std::vector<AreaLight>& lights, const ReadingsLight& all,
           bool with_cans) {
  Json array = Json::array();
  for (std::size_t i = 0; i < readings.size(); ++i) array.push_back(area(readings[i], lights[i], all, with_cans));
  return array;
}

/// The quantity's name as a key, with its unit.
std::string key_of(Quantity quantity) {
  switch (quantity) {
    case Quantity::illuminance:
      return "illuminance_lx";
    case Quantity::cylindrical_illuminance:
      return "mean_cylindrical_illuminance_lx";
    case Quantity::luminance:
      return "luminance_cd_m2";
  }
  return {};
}

Json point(const PointReading& reading, const Estimate& value, const ReadingsLight& all, bool with_cans) {
  const bool is_luminance = reading.quantity == Quantity::luminance;
  Json json{{"name", reading.name}};
  if (is_luminance) json["surface"] = reading.surface;
  json[is_luminance ? "surface_at" : "at"] = place(all.readings.receivers[reading.value.first]);
  json[key_of(reading.quantity)] = number(value.value);
  json[is_luminance ? "error_cd_m2" : "error_lx"] = number(value.error);
  if (with_cans) json["full_level_" + key_of(reading.quantity)] = per_can(reading.value, all.response);
  return json;
}

}  // namespace

void add_readings(Json& report, const ReadingsLight& light, bool per_can) {
  const Readings& readings = light.readings;
  if (!light.task_areas.empty()) report["task_areas"] = areas(readings.task_areas, light.task_areas, light, per_can);
  if (!light.points.empty()) {
    Json& points = report["points"] = Json::array();
    for (std::size_t i = 0; i < light.points.size(); ++i) {
      points.push_back(point(readings.points[i], light.points[i], light, per_can));
    }
  }
  if (!light.surfaces.empty()) report["surfaces"] = areas(readings.surfaces, light.surfaces, light, per_can);
}

}  // namespace evenlit
