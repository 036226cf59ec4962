#include "evenlit/moods/circuits.hpp"

#include <fstream>
#include <iterator>

#include "controlled_job.hpp"

using namespace evenlit;

namespace {

const Place k_place{.file = "den.toml", .line = 7, .column = 1};

}  // namespace

TEST_CASE("circuits: their cans give what their own drivers make of one setting", "[moods][exact]") {
  const Job job = controlled_job();
  const auto levels = can_levels(job, std::vector<double>{0.01, 1});
  REQUIRE(levels.size() == 5);
  // 2 % + 98 % x 1 %; two drivers hold their least of 5 %. Rounding only.
  CHECK(levels[0] == Approx(0.0298).epsilon(1e-15));
  CHECK(levels[1] == 0.05);
  CHECK(levels[2] == 0.05);
  CHECK(levels[3] == 1);
  CHECK(levels[4] == 0.5);
  CHECK(circuit_light(job, job.circuits[0], 0.01) == Approx((0.0298 + 0.05 + 0.05) / 3).epsilon(1e-15));
}

TEST_CASE("circuits: settings for levels give these levels", "[moods][property]") {
  const Job job = controlled_job();
  for (int percent = 5; percent <= 100; ++percent) {
    const double level = percent / 100.0;
    const auto settings = settings_for(job, std::vector<double>{level, 1}, k_place);
    REQUIRE(settings);
    CHECK(circuit_light(job, job.circuits[0], (*settings)[0]) == Approx(level).margin(1e-9));  // as setting_for says
    CHECK((*settings)[1] == 1);
  }
}

TEST_CASE("circuits: a level that a circuit cannot give is told with the nearest that it gives", "[moods][exact]") {
  Job job = controlled_job();
  const auto below = settings_for(job, std::vector<double>{0.03, 0.5}, k_place);
  REQUIRE_FALSE(below);
  // (2 % + 5 % + 5 %) / 3 is the least of the dimmed circuit.
  CHECK(text_of(below.error()) ==
        "den.toml:7:1: circuit \"ceiling\" cannot give 3.00 % light\n"
        "hint: the nearest that it gives are 0 % and 4.00 %\n"
        "den.toml:7:1: circuit \"entry\" cannot give 50.0 % light\n"
        "hint: the nearest that it gives are 0 % and 100 %\n");
  job.dimmers[0].high_end = 0.8;
  const auto above = settings_for(job, std::vector<double>{0.9, 0}, k_place);
  REQUIRE_FALSE(above);
  CHECK(text_of(above.error()) ==
        "den.toml:7:1: circuit \"ceiling\" cannot give 90.0 % light\nhint: the most that it gives is 80.0 %\n");
}

TEST_CASE("circuits: what is not named is off", "[moods][exact]") {
  const Job job = controlled_job();
  CHECK(in_circuit_order(job, {{"entry", 1}}) == std::vector<double>{0, 1});
  CHECK(can_levels(job, std::vector<double>{0, 0}) == std::vector<double>{0, 0, 0, 0, 0.5});
}

TEST_CASE("circuits: one without cans is set as its dimmer alone would be", "[moods][exact]") {
  Job job = controlled_job();
  job.circuits.push_back({.name = "spare", .dimmer = "knob"});
  // 2 % + 98 % x 50 %; to the tolerance of a setting.
  CHECK(circuit_setting(job, job.circuits[2], 0.51).value() == Approx(0.5).margin(2e-9));
}

TEST_CASE("circuits: the levels of the living room's moods can be set", "[moods][exact]") {
  std::ifstream file(EVENLIT_SOURCE_DIR "/scenes/living-room.toml", std::ios::binary);
  const auto job = read_job(std::string(std::istreambuf_iterator<char>(file), {}), "living-room.toml");
  REQUIRE(job);
  int with_levels = 0;
  for (const Mood& mood : job->moods) {
    const auto* levels = std::get_if<CircuitLevels>(&mood.asks);
    if (levels == nullptr) continue;
    CAPTURE(mood.name);
    CHECK(settings_for(*job, in_circuit_order(*job, levels->of), mood.origin.place));
    ++with_levels;
  }
  CHECK(with_levels == 1);
}
