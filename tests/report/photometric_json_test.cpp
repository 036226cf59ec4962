#include "evenlit/report/photometric_json.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <nlohmann/json.hpp>

#include "photometric_sample.hpp"

using namespace evenlit;
using Json = nlohmann::ordered_json;

namespace {

Json parsed(const PhotometricFile& file, const Problems& warnings = {}) {
  return Json::parse(photometric_json(file, photometric_summary(file), warnings, "a.ies"));
}

std::vector<std::string> keys(const Json& object) {
  std::vector<std::string> found;
  for (const auto& [key, value] : object.items()) found.push_back(key);
  return found;
}

}  // namespace

TEST_CASE("the photometric JSON reads back with the numbers that went in", "[report][exact]") {
  const auto file = sample::photometric_file();
  const auto summary = photometric_summary(file);
  const Json json = parsed(file, sample::photometric_warnings());
  CHECK(keys(json) == std::vector<std::string>{"format", "version", "name", "luminaire", "light", "cone_of_light",
                                               "zones", "zone_groups", "spacing_criterion", "luminance",
                                               "coefficients_of_utilization", "distribution", "warnings"});
  CHECK(json["format"] == "evenlit photometry");
  CHECK(json["version"] == 1);
  CHECK(json["luminaire"]["keywords"][1] == Json::parse(R"({"name": "MANUFAC", "value": "Nobody"})"));
  CHECK(json["luminaire"]["lamp_sets"][0] ==
        Json::parse(R"({"lamps": 1, "type": "LED module", "lumens_lm": 3000, "colour": "3000 K", "rendering": "90",
                        "power_w": 25})"));
  CHECK(json["luminaire"]["lamp_set"] == 1);
  CHECK(json["luminaire"]["opening"] ==
        Json::parse(R"({"shape": "rectangle", "width_m": 0.3048, "length_m": 0.6096, "height_m": 0})"));
  CHECK(json["warnings"][0]["line"] == 3);

  // six significant digits are written
  CHECK(json["light"]["luminaire_lm"].get<double>() == Approx(summary.lumens).epsilon(5.1e-6));
  CHECK(json["light"]["light_output_ratio"].get<double>() == Approx(*summary.light_output_ratio).epsilon(5.1e-6));
  CHECK(json["light"]["peak"] == Json::parse(R"({"intensity_cd": 1000, "gamma_deg": 0, "c_deg": 0})"));
  CHECK(json["light"]["along_c90"]["field_deg"].get<double>() == Approx(*summary.across.field_deg).epsilon(5.1e-6));
  CHECK(json["cone_of_light"]["metres"][3]["illuminance_lx"] == 160);
  CHECK(json["zones"].size() == 18);
  CHECK(json["zone_groups"][2]["to_deg"] == 60);
  CHECK(json["luminance"]["luminance_cd_m2"][0].size() == 5);
  const Json& column = json["coefficients_of_utilization"]["finishes"][5];
  CHECK(column["ceiling_fraction"] == 0.7);
  CHECK(column["coefficients"][4].get<double>() == Approx(summary.utilization.coefficient(4, 5)).epsilon(5.1e-6));
  CHECK(json["coefficients_of_utilization"]["shares_of"] == "lamps");

  const Json& table = json["distribution"];
  CHECK(table["axis"] == "vertical");
  CHECK(table["gamma_deg"].size() == 19);
  REQUIRE(table["candela"].size() == 5);
  CHECK(table["candela"][2][6].get<double>() == Approx(file.distribution.candela(6, 2)).epsilon(5.1e-6));
}

TEST_CASE("the photometric JSON has null for what does not exist, and tilt data where there are any",
          "[report][exact]") {
  auto file = sample::photometric_file();
  file.lamp_sets = {LampSet{}};
  file.opening = {};
  file.distribution.candela.setZero();
  file.tilt = TiltData{2, {0, 90}, {0.9, 0.5}};
  const Json json = parsed(file);
  for (const char* key : {"lamps_lm", "light_output_ratio", "power_w", "efficacy_lm_w"})
    CHECK(json["light"][key].is_null());
  CHECK(json["light"]["along_c0"]["beam_deg"].is_null());
  CHECK(json["spacing_criterion"].is_null());
  CHECK(json["luminance"].is_null());
  CHECK(json["luminaire"]["housing"].is_null());
  CHECK(json["luminaire"]["tilt"] == Json::parse(R"({"geometry": 2, "angles_deg": [0, 90], "factors": [0.9, 0.5]})"));
  CHECK(json["light"]["tilt_factor"] == 0.9);
  CHECK(json["coefficients_of_utilization"]["shares_of"] == "luminaire");
  CHECK(parsed(sample::photometric_file())["luminaire"]["tilt"].is_null());
}

TEST_CASE("no number of the photometric JSON is infinite, and broken text is replaced", "[report][exact]") {
  auto file = sample::photometric_file();
  file.keywords[0].second = "a\"b\n\xff";
  auto summary = photometric_summary(file);
  summary.lumens = std::numeric_limits<double>::quiet_NaN();
  const Json json = Json::parse(photometric_json(file, summary, {}, "a.ies"));
  CHECK(json["light"]["luminaire_lm"].is_null());
  CHECK(json["luminaire"]["keywords"][0]["value"] == "a\"b\n\ufffd");
}
