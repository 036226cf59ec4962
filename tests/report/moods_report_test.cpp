#include "evenlit/report/moods_report.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>
#include <sstream>

#include "evenlit/base/utf8.hpp"
#include "lines.hpp"

using namespace evenlit;

namespace {

/// A made-up room of two circuits, of which the second is switched.
Job sample_job(Units units) {
  Job job{.units = units, .room = {.name = "Study", .corners_m = {{0, 0}, {4, 0}, {4, 3}, {0, 3}}}};
  job.circuits = {{.name = "general", .dimmer = "wall"}, {.name = "shelf"}};
  job.moods = {{.name = "evening", .asks = Wishes{}}, {.name = "a very long name of a mood", .asks = CircuitLevels{}}};
  return job;
}

MoodLight mood(const std::string& name, double light) {
  MoodLight made{
      .name = name, .settings = {std::sqrt(light), 0}, .circuit_light = {light, 0}, .can_levels = {light, 0}};
  made.light.work_plane.statistics = {.average_lx = 200 * light, .minimum_lx = 50 * light};
  made.light.work_plane.field.error_lx = Eigen::VectorXd::Constant(1, 0.01);
  made.light.readings.readings.task_areas = {{.name = "desk"}};
  made.light.readings.task_areas = {{.average_lx = {300 * light, 0.1}}};
  made.watts = 40 * light;
  return made;
}

RoomMoods sample() {
  RoomMoods moods{.moods = {mood("evening", 0.25), mood("a very long name of a mood", 1)}, .dimmed = {0, 1, 2}};
  MoodLight& evening = moods.moods.front();
  evening.energy = YearlyEnergy{14.6, 2.482};
  evening.wishes = {{.area = "desk", .kind = LevelWish::Kind::at_least, .value = 150, .result = {75, -0.5}},
                    {.area = "desk", .kind = LevelWish::Kind::ratio, .value = 3, .result = {3.01, 0.003}}};
  evening.split = Split{.dimmer = 0, .leaving = {1, 2}, .grouping = {}};
  moods.loads = {{.circuit = 0, .watts = 130, .most_w = 120}};
  return moods;
}

}  // namespace

TEST_CASE("the report of moods: settings, what a meter reads of them and what the eye makes of it", "[report][exact]") {
  const std::string text = moods_text(sample_job(Units::metric), sample(), {});
  CHECK(text.starts_with("Study: 2 moods.\n"));
  CHECK(line_with(text, "general, dimmer") == "  general, dimmer              50 %      100 %");
  CHECK(line_with(text, "by the meter") == "    by the meter               25 %      100 %");
  CHECK(line_with(text, "to the eye") == "    to the eye                 50 %      100 %");
  CHECK(line_with(text, "shelf, dimmer") == "  shelf, dimmer                 off        off");
  CHECK(line_with(text, "work plane, average") == "  work plane, average          50.0        200");
  CHECK(line_with(text, "  desk") == "  desk                         75.0        300");
  CHECK(line_with(text, "power, W") == "  power, W                     10.0       40.0");
  CHECK(line_with(text, "a year, cost") == "  a year, cost                $2.48          -");
  CHECK(line_with(text, "evening").find("a very lo…") != std::string::npos);
}

TEST_CASE("the report of moods: wishes that are missed, by how much, and what would help", "[report][exact]") {
  const std::string text = moods_text(sample_job(Units::metric), sample(), {});
  CHECK(text.find("    desk: at least 150 lx, has 75.0 lx: 50 % too little\n") != std::string::npos);
  CHECK(text.find("    desk: 3.00 times work plane, has 3.01 times: as wished\n") != std::string::npos);
  CHECK(text.find("    Cans 2 and 3 of \"general\" on a dimmer of their own would bring this nearer.\n") !=
        std::string::npos);
  CHECK(text.find("general               130 W of 120 W: TOO MUCH for this dimmer\n") != std::string::npos);
}

TEST_CASE("the report of moods keeps to 80 columns and to numbers", "[report][property]") {
  RoomMoods moods = sample();
  moods.moods.front().wishes.push_back(
      {.area = "desk",
       .other = "shelf",
       .kind = LevelWish::Kind::ratio,
       .value = 2,
       .result = {std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()}});
  for (int i = 0; i < 9; ++i) moods.moods.push_back(mood("mood " + std::to_string(i), 0.1 * i));
  for (const Units units : {Units::metric, Units::imperial}) {
    const std::string text = moods_text(sample_job(units), moods, {});
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) CHECK(code_points(line) <= 80);
    CHECK(text.find(" nan") == std::string::npos);
    CHECK(text.find("inf ") == std::string::npos);
    CHECK(text.find("has all: too much") != std::string::npos);
  }
}

TEST_CASE("a proposal of dimmers in words", "[report][exact]") {
  Grouping grouping{.dimmer_of = {0, 1, 1}, .misfit = 0.01};
  grouping.moods.push_back({.levels = Eigen::Vector3d(0.4, 0, 0)});
  RoomMoods moods = sample();
  moods.proposed = grouping;
  const std::string text = moods_text(sample_job(Units::metric), moods, {});
  CHECK(text.find("Cans on 2 dimmers\n") != std::string::npos);
  CHECK(text.find("  1: can 1: 40 %.\n") != std::string::npos);
  CHECK(text.find("  2: cans 2 and 3: off.\n") != std::string::npos);
  CHECK(text.find("No other grouping does better.") != std::string::npos);
}

TEST_CASE("moods as JSON", "[report][exact]") {
  const auto json = nlohmann::json::parse(moods_json(sample_job(Units::metric), sample(), {}));
  CHECK(json["format"] == "evenlit moods");
  CHECK(json["version"] == 1);
  REQUIRE(json["moods"].size() == 2);
  const auto& evening = json["moods"][0];
  CHECK(evening["circuits"][0]["setting"] == 0.5);
  CHECK(evening["circuits"][0]["perceived_fraction"] == 0.5);
  CHECK(evening["wishes"][0]["off_by_fraction"] == -0.5);
  CHECK(evening["split_that_helps"]["cans"] == nlohmann::json::array({2, 3}));
  CHECK(evening["cost_a_year"] == 2.482);
  CHECK(json["moods"][1]["energy_kwh_a_year"].is_null());
  CHECK(json["dimmer_loads"][0]["is_too_much"] == true);
}
