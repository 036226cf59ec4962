#include "evenlit/report/json_report.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <nlohmann/json.hpp>

#include "drawing/sample_light.hpp"

using namespace evenlit;
using Json = nlohmann::ordered_json;

namespace {

Json parsed(const sample::Lit& lit, const JsonReportOptions& options = {}) {
  return Json::parse(json_report(lit.job, lit.scene, lit.light, {}, options));
}

std::vector<std::string> keys(const Json& object) {
  std::vector<std::string> found;
  for (const auto& [key, value] : object.items()) found.push_back(key);
  return found;
}

}  // namespace

TEST_CASE("the JSON report reads back with the numbers that went in", "[report][exact]") {
  const sample::Lit lit = sample::living_room();
  const Json json = parsed(lit);
  CHECK(keys(json) == std::vector<std::string>{"format", "version", "room", "results", "power", "lumen_method",
                                               "warnings", "cans", "grid", "scale"});
  CHECK(json["format"] == "evenlit light");
  CHECK(json["version"] == 1);
  CHECK(json["room"]["corners"][1] == Json::parse(R"({"x_m": 5.4864, "y_m": 0, "wall_from_here": "east"})"));
  // six significant digits are written
  CHECK(json["results"]["average_lx"].get<double>() == Approx(lit.light.statistics.average_lx).epsilon(5e-6));
  CHECK(json["results"]["target_lx"] == 322.917);
  CHECK(json["power"]["power_w"] == 76);
  CHECK(json["power"]["efficacy_lm_w"] == 94.7368);
  CHECK(json["cans"].size() == 8);
  CHECK(json["cans"][2]["number"] == 3);
  CHECK_FALSE(json["cans"][0].contains("full_level_direct_lx"));

  const Json& grid = json["grid"];
  const std::size_t points = lit.light.grid.points_m.size();
  for (const char* key : {"x_m", "y_m", "illuminance_lx", "direct_lx", "error_lx"}) CHECK(grid[key].size() == points);
  for (std::size_t i = 0; i < points; i += 97) {
    CHECK(grid["x_m"][i].get<double>() == Approx(lit.light.grid.points_m[i].x()).margin(5.1e-5));
    CHECK(grid["illuminance_lx"][i].get<double>() == Approx(lit.light.field.total_lx[i]).epsilon(5.1e-6));
  }
}

TEST_CASE("the light of each can is given on request", "[report][exact]") {
  const sample::Lit lit = sample::rectangular_room("Study", 9, 8, 2, 1, 0.5);
  const Json json = parsed(lit, {.per_can = true});
  const Json& column = json["cans"][1]["full_level_direct_lx"];
  REQUIRE(column.size() == lit.light.grid.points_m.size());
  CHECK(column[3].get<double>() == Approx(lit.light.response.direct_lx(3, 1)).epsilon(5.1e-6));
  CHECK(json["cans"][1]["full_level_indirect_lx"][3] == 9);
}

TEST_CASE("what does not exist is null, and no number is infinite", "[report][exact]") {
  sample::Lit lit = sample::living_room();
  lit.job.target_lx.reset();
  lit.light.statistics.share_at_target.reset();
  lit.light.statistics.max_min.reset();
  lit.light.watts = 0;
  lit.light.field.error_lx[0] = std::numeric_limits<double>::infinity();
  const Json json = parsed(lit);
  CHECK(json["results"]["target_lx"].is_null());
  CHECK(json["results"]["share_at_target_fraction"].is_null());
  CHECK(json["results"]["maximum_over_minimum"].is_null());
  CHECK(json["power"]["efficacy_lm_w"].is_null());
  CHECK(json["grid"]["error_lx"][0].is_null());
  lit.light.watts.reset();
  CHECK(parsed(lit)["power"]["power_w"].is_null());
  CHECK(parsed(lit)["power"]["power_density_w_m2"].is_null());
}

TEST_CASE("names are escaped, broken UTF-8 is replaced", "[report][exact]") {
  sample::Lit lit = sample::living_room();
  lit.job.room.name = "a\"b\n\xff";
  CHECK(parsed(lit)["room"]["name"] == "a\"b\n\ufffd");
}

TEST_CASE("the same result makes the same bytes", "[report][property]") {
  const sample::Lit lit = sample::living_room();
  CHECK(json_report(lit.job, lit.scene, lit.light, {}, {}) == json_report(lit.job, lit.scene, lit.light, {}, {}));
}

TEST_CASE("the JSON report tells the colours of a map", "[report][exact]") {
  const Json json = parsed(sample::living_room(), {.scale = {{0, {0, 32, 76}}, {107.6391, {255, 233, 69}}}});
  CHECK(json["scale"] == Json::parse(R"([{"lx": 0.0, "colour": "#00204c"}, {"lx": 107.639, "colour": "#ffe945"}])"));
}
