#include "evenlit/report/json_report.hpp"

#include <fmt/format.h>

#include "evenlit/report/verdict.hpp"
#include "json_values.hpp"
#include "readings_json.hpp"

namespace evenlit {
namespace {

constexpr int k_version = 1;

Json room(const Job& job, const WorkPlaneLight& light) {
  Json corners = Json::array();
  for (std::size_t i = 0; i < job.room.corners_m.size(); ++i) {
    const Eigen::Vector2d& corner = job.room.corners_m[i];
    corners.push_back(
        {{"x_m", length(corner.x())}, {"y_m", length(corner.y())}, {"wall_from_here", job.room.wall_names[i]}});
  }
  const Ceiling ceiling = ceiling_of(job.room);
  return {{"name", job.room.name},
          {"ceiling_m", length(ceiling.highest_m)},
          {"lowest_ceiling_m", length(ceiling.lowest_m)},
          {"floor_area_m2", number(light.floor_area_m2)},
          {"corners", corners}};
}

Json point(const WorkPlaneLight& light, int index) {
  return {{"x_m", length(light.grid.points_m[index].x())}, {"y_m", length(light.grid.points_m[index].y())}};
}

Json results(const Job& job, const WorkPlaneLight& light) {
  const Statistics& s = light.statistics;
  return {{"target_lx", number(job.target_lx)},
          {"average_lx", number(s.average_lx)},
          {"average_error_lx", number(light.average_error_lx)},
          {"minimum_lx", number(s.minimum_lx)},
          {"minimum_at", point(light, s.minimum_at)},
          {"maximum_lx", number(s.maximum_lx)},
          {"maximum_at", point(light, s.maximum_at)},
          {"percentile_10_lx", number(s.p10_lx)},
          {"percentile_90_lx", number(s.p90_lx)},
          {"uniformity_minimum_over_average", number(s.uniformity_min_avg)},
          {"uniformity_minimum_over_maximum", number(s.uniformity_min_max)},
          {"maximum_over_minimum", number(s.max_min)},
          {"coefficient_of_variation", number(s.coefficient_of_variation)},
          {"share_at_target_fraction", number(s.share_at_target)},
          {"direct_share_fraction", number(s.direct_share)},
          {"verdict", verdict(job, light)}};
}

Json power(const WorkPlaneLight& light) {
  const bool has_watts = light.watts.value_or(0) > 0;
  return {{"power_w", number(light.watts)},
          {"power_density_w_m2", light.watts ? number(*light.watts / light.floor_area_m2) : Json(nullptr)},
          {"luminaire_lm", number(light.luminaire_lumens)},
          {"efficacy_lm_w", has_watts ? number(light.luminaire_lumens / *light.watts) : Json(nullptr)}};
}

Json lumen_method(const WorkPlaneLight& light) {
  const LumenMethod& method = light.lumen_method;
  return {{"average_lx", number(method.average_lx)},
          {"room_cavity_ratio", number(method.room_cavity_ratio)},
          {"coefficient_of_utilization", number(method.coefficient_of_utilization)}};
}

Json cans(const Job& job, const Scene& scene, const WorkPlaneLight& light, bool with_response) {
  Json array = Json::array();
  for (std::size_t i = 0; i < scene.luminaires.size(); ++i) {
    const Luminaire& luminaire = scene.luminaires[i];
    Json can{{"number", i + 1},
             {"type", job.cans[i].type},
             {"x_m", length(luminaire.position_m.x())},
             {"y_m", length(luminaire.position_m.y())},
             {"height_m", length(luminaire.position_m.z())},
             {"level_fraction", number(luminaire.level)},
             {"full_power_w", number(luminaire.watts)}};
    if (with_response) {
      const auto column = static_cast<Eigen::Index>(i);
      can["full_level_direct_lx"] = numbers(light.response.direct_lx.col(column));
      can["full_level_indirect_lx"] = numbers(light.response.indirect_lx.col(column));
    }
    array.push_back(std::move(can));
  }
  return array;
}

Json grid(const WorkPlaneLight& light) {
  Json x = Json::array();
  Json y = Json::array();
  for (const Eigen::Vector2d& point : light.grid.points_m) {
    x.push_back(length(point.x()));
    y.push_back(length(point.y()));
  }
  return {{"height_m", length(light.grid.height_m)},
          {"spacing_x_m", length(light.grid.spacing_m.x())},
          {"spacing_y_m", length(light.grid.spacing_m.y())},
          {"x_m", std::move(x)},
          {"y_m", std::move(y)},
          {"illuminance_lx", numbers(light.field.total_lx)},
          {"direct_lx", numbers(light.field.direct_lx)},
          {"error_lx", numbers(light.field.error_lx)}};
}

Json scale(const std::vector<ScaleColour>& colours) {
  Json ticks = Json::array();
  for (const auto& [lx, colour] : colours) {
    ticks.push_back(
        {{"lx", number(lx)}, {"colour", fmt::format("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue)}});
  }
  return ticks;
}

}  // namespace

std::string json_report(const Job& job, const Scene& scene, const WorkPlaneLight& light, const Problems& warnings,
                        const JsonReportOptions& options, const ReadingsLight& readings) {
  Json report{{"format", "evenlit light"},     {"version", k_version},
              {"room", room(job, light)},      {"results", results(job, light)},
              {"power", power(light)},         {"lumen_method", lumen_method(light)},
              {"warnings", remarks(warnings)}, {"cans", cans(job, scene, light, options.per_can)},
              {"grid", grid(light)},           {"scale", scale(options.scale)}};
  add_readings(report, readings, options.per_can);
  return json_text(report);
}

}  // namespace evenlit
