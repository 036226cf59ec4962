#include "evenlit/report/meter_report.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

#include "evenlit/base/utf8.hpp"
#include "meter_words.hpp"

using namespace evenlit;

namespace {

Job den() {
  Job job;
  job.room.name = "Den";
  job.cans.push_back({.type = "flood", .from = {{"west", 0.9144}, {"south", 1.2192}}});
  return job;
}

MeterReading reading(const std::string& name, double lx, int line) {
  MeterReading reading{.lx = lx, .origin = {Place{"night.csv", line, 9}}};
  reading.point.name = name;
  return reading;
}

/// Three readings: one as predicted, one a little above, one far below where can 1 gives most.
MeterCheck sample() {
  MeterCheck check{.readings = {reading("table", 323, 2), reading("sofa", 118, 3), reading("=corner", 60, 5)},
                   .meter_accuracy = 0.1};
  check.fit.readings = {
      {.predicted_lx = 323, .deviation = 0, .residual = -0.02},
      {.predicted_lx = 107.6, .deviation = 0.097, .residual = 0.03},
      {.predicted_lx = 100, .deviation = -0.4, .residual = -0.41, .is_outlier = true, .suspect = SuspectCan{0, 0.85}}};
  check.fit.average = 0.048;
  check.fit.factor = FittedFactor{{1.048, 0.93, 1.17}, 0.05};
  check.fit.surfaces =
      FittedSurfaces{.shifts = {FittedShift{{0.08, 0.02, 0.14}, true}, FittedShift{{-0.01, -0.09, 0.07}, true},
                                FittedShift{{0.01, -0.2, 0.2}, false}},
                     .factor = {1.02, 0.91, 1.13},
                     .scatter = 0.03};
  check.error_lx = Eigen::Vector3d(1, 0.5, 0.4);
  check.reflectance = {0.2, 0.8, 0.5};
  return check;
}

std::string verdict(const MeterCheck& check) {
  const Job job = den();
  std::string all;
  for (const std::string& text : meter_verdict({.job = job, .check = check})) all += text + '\n';
  return all;
}

/// A room of which only a factor and what new lamps would give are told.
std::string factor_verdict(const Interval& factor, double new_over_maintained) {
  MeterCheck check = sample();
  check.fit.surfaces.reset();
  check.fit.readings.pop_back();
  check.readings.pop_back();
  check.fit.factor->value = factor;
  check.new_over_maintained = new_over_maintained;
  return verdict(check);
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("meter report: the text, whole", "[report][exact]") {
  const Job job = den();
  const MeterCheck check = sample();
  CHECK(meter_text({.job = job, .check = check, .mood = "evening"}, {}) ==
        R"(Den, mood evening: 3 readings, meter within 10 %.

Readings                         Predicted          Read  Difference When fitted
                                 fc     lx     fc     lx
  table                        30.0    323   30.0    323         0 %      -2 %
  sofa                         10.0    108   11.0    118       +10 %      +3 %
  =corner                      9.29    100   5.57   60.0       -40 %     -41 % !
  When fitted: what is left with the light's factor and the reflectances that go
  with these readings best; ! does not go with the others.

Fitted                             Most likely            95 %
  All light, over the prediction          1.05    0.93 to 1.17
  Scatter of a reading                     5 %

Fitted with reflectances           Most likely            95 %    Job
  All light, over the prediction          1.02    0.91 to 1.13
  Reflectance, floor                      0.28    0.22 to 0.34   0.20
  Reflectance, ceiling                    0.79    0.71 to 0.87   0.80
  Reflectance, walls                      0.51    0.30 to 0.70   0.50  not told
  Scatter of a reading                     3 %

Verdict
  Within what this meter can tell: on average the readings are 5 % above the
  prediction (95 %: 7 % below to 17 % above).
  "=corner" reads 41 % below what the others lead to expect; nothing is fitted
  to it. Is can 1 (flood, 3' 0" from west, 4' 0" from south) at full output?
  85 % of its light missing would explain it best. Read it again first: a
  shadow or a sensor off its mark does the same.
  Of other finishes, the readings go best with a lighter floor than in the job:
  a reflectance of 0.28 (0.22 to 0.34), not 0.20. With the finishes that go
  best, all light is 2 % above the prediction (95 %: 9 % below to 13 % above).
  The readings go with the job's reflectance of the ceiling.
  These readings cannot tell the reflectance of the walls: the job's stays.
  Before a can is opened its circuit is switched off at the panel and proved
  dead at the work, by a licensed electrician under the local code.
  A room is read at night or with its windows covered, other lamps off, its LEDs
  on for half an hour, the reader clear of the sensor (common practice).
)");
}

TEST_CASE("meter report: lines stay within 80 columns whatever the names", "[report][property]") {
  Job job = den();
  job.room.name = "A room of a name that is long " + std::string(40, 'x');
  MeterCheck check = sample();
  check.readings[1].point.name = std::string(60, 'n');
  check.readings[2].point.name = "tab\there \x1b[31m";
  check.fit.readings[0].deviation.reset();
  for (const Units units : {Units::imperial, Units::metric}) {
    job.units = units;
    const std::string text = meter_text({.job = job, .check = check}, {{whole_file("night.csv"), "what", "hint"}});
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) CHECK(code_points(line) <= 80);
    CHECK(has(text, "too dark\n"));
    CHECK_FALSE(has(text, "\x1b"));
    CHECK(has(text, "night.csv: what (hint)"));
  }
}

TEST_CASE("meter verdict: within what the meter can tell", "[report][exact]") {
  CHECK(factor_verdict({1.048, 0.93, 1.17}, 1) ==
        "Within what this meter can tell: on average the readings are 5 % above the prediction (95 %: 7 % below to 17 "
        "% above).\n");
  CHECK(has(factor_verdict({1.004, 0.9, 1.1}, 1), "the readings are level with the prediction"));
  CHECK(has(factor_verdict({1.048, 0.93, 1.17}, 1 / 0.9),
            "The prediction has a light loss factor of 0.90 in it: new lamps should read 11 % above it. This meter "
            "cannot tell the two apart here."));
  CHECK(has(factor_verdict({1.0, 0.95, 1.05}, 1 / 0.9), "The readings are short of that."));
}

TEST_CASE("meter verdict: brighter, and whether new lamps would explain it", "[report][exact]") {
  const std::string plain = factor_verdict({1.12, 1.03, 1.21}, 1);
  CHECK(plain.starts_with("The room is 12 % brighter than predicted (95 %: 3 % above to 21 % above). Reasons"));
  const std::string fresh = factor_verdict({1.12, 1.03, 1.21}, 1 / 0.9);
  CHECK(has(fresh, "new lamps should read 11 % above it. That alone would explain it.\n"));
  CHECK_FALSE(has(fresh, "Reasons"));
  const std::string beyond = factor_verdict({1.4, 1.3, 1.5}, 1 / 0.9);
  CHECK(has(beyond, "The readings are above even that. Reasons"));
}

TEST_CASE("meter verdict: darker", "[report][exact]") {
  CHECK(factor_verdict({0.8, 0.7, 0.9}, 1)
            .starts_with("The room is 20 % darker than predicted (95 %: 30 % below to 10 % below). Reasons to look "
                         "for: a dimmer's trim"));
  CHECK(has(factor_verdict({0.8, 0.7, 0.9}, 1 / 0.9), "The readings are short of that. Reasons"));
}

TEST_CASE("meter verdict: readings that do not go with the others", "[report][exact]") {
  const std::string low = verdict(sample());
  CHECK(
      has(low,
          "\"=corner\" reads 41 % below what the others lead to expect; nothing is fitted to it. Is can 1 (flood, "
          "3' 0\" from west, 4' 0\" from south) at full output? 85 % of its light missing would explain it best. Read "
          "it again first"));
  CHECK(has(low, "switched off at the panel"));
  MeterCheck check = sample();
  check.fit.readings[2].suspect.reset();
  CHECK(has(verdict(check), "No single can explains it."));
  CHECK_FALSE(has(verdict(check), "switched off at the panel"));
  check.fit.readings[2].residual = 0.5;
  CHECK(has(verdict(check), "\"=corner\" reads 50 % above what the others lead to expect"));
  CHECK(has(verdict(check), "daylight"));
}

TEST_CASE("meter verdict: reflectances that are told, and that are not", "[report][exact]") {
  const std::string text = verdict(sample());
  CHECK(has(
      text,
      "Of other finishes, the readings go best with a lighter floor than in the job: a reflectance of 0.28 (0.22 to "
      "0.34), not 0.20. With the finishes that go best, all light is 2 % above the prediction (95 %: 9 % below to 13 % "
      "above).\n"));
  CHECK(has(text, "The readings go with the job's reflectance of the ceiling.\n"));
  CHECK(has(text, "These readings cannot tell the reflectance of the walls: the job's stays.\n"));
  MeterCheck check = sample();
  for (FittedShift& shift : check.fit.surfaces->shifts) shift = {{0, -0.2, 0.2}, false};
  CHECK(has(verdict(check), "cannot tell the reflectance of the floor, the ceiling and the walls"));
}

TEST_CASE("meter verdict: scatter, and too few readings", "[report][exact]") {
  MeterCheck check = sample();
  check.fit.factor->scatter = 0.16;
  CHECK(has(verdict(check), "The readings scatter by 16 % about that"));
  check.fit.factor.reset();
  check.fit.surfaces.reset();
  CHECK(verdict(check).starts_with("On average the readings are 5 % above the prediction; too few to tell more.\n"));
}

TEST_CASE("meter report: JSON", "[report][exact]") {
  const Job job = den();
  const MeterCheck check = sample();
  const auto json = nlohmann::json::parse(meter_json({.job = job, .check = check}, {}));
  CHECK(json["format"] == "evenlit meter");
  CHECK(json["version"] == 1);
  CHECK(json["mood"] == nullptr);
  CHECK(json["readings"][1]["reading_lx"] == 118);
  CHECK(json["readings"][1]["suspect"] == nullptr);
  CHECK(json["readings"][2]["line"] == 5);
  CHECK(json["readings"][2]["outlier"] == true);
  CHECK(json["readings"][2]["suspect"]["can"] == 1);
  CHECK(json["fitted_factor"]["factor"]["most"] == 1.17);
  CHECK(json["fitted_surfaces"]["floor"]["reflectance"]["value"] == 0.28);
  CHECK(json["fitted_surfaces"]["floor"]["told"] == true);
  CHECK(json["fitted_surfaces"]["walls"]["told"] == false);
  CHECK(json["verdict"].size() == meter_verdict({.job = job, .check = check}).size());
  MeterCheck bare = sample();
  bare.fit.factor.reset();
  bare.fit.surfaces.reset();
  bare.fit.readings[0].deviation.reset();
  const auto few = nlohmann::json::parse(meter_json({.job = job, .check = bare}, {}));
  CHECK(few["fitted_factor"] == nullptr);
  CHECK(few["fitted_surfaces"] == nullptr);
  CHECK(few["readings"][0]["difference"] == nullptr);
}

TEST_CASE("meter report: CSV", "[report][exact]") {
  MeterCheck check = sample();
  check.fit.readings[0].deviation.reset();
  CHECK(meter_csv(check) ==
        "name,line,reading_lx,reading_fc,predicted_lx,predicted_fc,predicted_error_lx,difference,residual,outlier,"
        "suspect_can\n"
        "\"table\",2,323.0,30.01,323.0,30.01,1.0,,,no,\n"
        "\"sofa\",3,118.0,10.96,107.6,9.996,0.50,0.097,0.030,no,\n"
        "\"'=corner\",5,60.00,5.574,100.0,9.290,0.40,-0.400,-0.410,yes,1\n");
}
