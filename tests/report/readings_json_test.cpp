#include "readings_json.hpp"

#include <catch2/catch.hpp>

#include "drawing/sample_light.hpp"
#include "evenlit/report/json_report.hpp"
#include "report/sample_readings.hpp"

using namespace evenlit;

TEST_CASE("readings in JSON, with the light of each can on request", "[report][exact]") {
  Json json;
  add_readings(json, sample::readings(), true);
  CHECK(json["task_areas"] == Json::parse(R"([{"name": "desk", "area_m2": 1.28, "points": 2,
      "average_lx": 323.0, "average_error_lx": 2.0, "minimum_lx": 161.0, "minimum_error_lx": 1.0,
      "minimum_at": {"x_m": 1.0, "y_m": 2.0, "height_m": 0.75}, "maximum_lx": 485.0, "maximum_error_lx": 3.0,
      "uniformity_minimum_over_average": 0.498452, "full_level_average_lx": [120.0, 220.0]}])"));
  CHECK(json["points"] == Json::parse(R"([
      {"name": "pillow", "at": {"x_m": 3.0, "y_m": 2.0, "height_m": 0.75}, "illuminance_lx": 53.8, "error_lx": 0.4,
       "full_level_illuminance_lx": [120.0, 120.0]},
      {"name": "faces", "at": {"x_m": 4.0, "y_m": 2.0, "height_m": 0.75}, "mean_cylindrical_illuminance_lx": 107.6,
       "error_lx": 0.9, "full_level_mean_cylindrical_illuminance_lx": [120.0, 120.0]},
      {"name": "view", "surface": "north", "surface_at": {"x_m": 41.0, "y_m": 2.0, "height_m": 0.75},
       "luminance_cd_m2": 13.46, "error_cd_m2": 0.05, "full_level_luminance_cd_m2": [15.0, 15.0]}])"));
  CHECK(json["surfaces"][0]["average_luminance_cd_m2"] == 13.69);
  CHECK(json["surfaces"][0]["average_luminance_error_cd_m2"] == 0.25);

  Json plain;
  add_readings(plain, sample::readings(), false);
  CHECK_FALSE(plain["task_areas"][0].contains("full_level_average_lx"));
  CHECK_FALSE(plain["points"][0].contains("full_level_illuminance_lx"));
}

TEST_CASE("a JSON report has the keys of the readings that there are", "[report][exact]") {
  const sample::Lit lit = sample::living_room();
  const auto report = [&](const ReadingsLight& readings) {
    return Json::parse(json_report(lit.job, lit.scene, lit.light, {}, {}, readings));
  };
  for (const char* key : {"task_areas", "points", "surfaces"}) {
    CHECK(report(sample::readings()).contains(key));
    CHECK_FALSE(report({}).contains(key));
  }
}
