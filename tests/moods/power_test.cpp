#include "evenlit/moods/power.hpp"

#include "controlled_job.hpp"
#include "evenlit/moods/circuits.hpp"

using namespace evenlit;

TEST_CASE("power: the watts of a mood are those of its cans at their levels", "[moods][exact]") {
  const Job job = controlled_job();
  const Scene scene = scene_of(job);
  // All on: 10 + 8 + 8 + 10 W, and 8 W at half light: a tenth for the driver and 0.9 x 0.5. Rounding only.
  const double half = 8 * 0.55;
  CHECK(drawn_watts(job, scene, can_levels(job, std::vector<double>{1, 1})).value() ==
        Approx(36 + half).epsilon(1e-15));
  CHECK(drawn_watts(job, scene, can_levels(job, std::vector<double>{0, 0})).value() == Approx(half).epsilon(1e-15));
}

TEST_CASE("power: less light never draws more", "[moods][property]") {
  const Job job = controlled_job();
  const Scene scene = scene_of(job);
  double before = 0;
  for (int step = 0; step <= 100; ++step) {
    const auto watts = drawn_watts(job, scene, can_levels(job, std::vector<double>{step / 100.0, 1}));
    REQUIRE(watts);
    CHECK(*watts >= before);
    before = *watts;
  }
}

TEST_CASE("power: a can whose watts are not known only counts while it is off", "[moods][exact]") {
  Job job = controlled_job();
  job.can_types[0].watts.reset();
  const Scene scene = scene_of(job);
  CHECK_FALSE(drawn_watts(job, scene, can_levels(job, std::vector<double>{1, 0})));
  CHECK(drawn_watts(job, scene, can_levels(job, std::vector<double>{0, 0})));
}

TEST_CASE("power: energy and cost of a year", "[moods][exact]") {
  // 100 W x 2.5 h x 365 = 91.25 kWh. Rounding only.
  const auto energy = yearly_energy(100, 2.5, 0.2);
  CHECK(energy.kwh == Approx(91.25).epsilon(1e-15));
  CHECK(energy.cost.value() == Approx(18.25).epsilon(1e-15));
  CHECK_FALSE(yearly_energy(100, 2.5, std::nullopt).cost);
}

TEST_CASE("power: a dimmer's load is held against its derated rating and its minimum", "[moods][exact]") {
  Job job = controlled_job();
  const auto loads = dimmer_loads(job, scene_of(job));
  REQUIRE(loads.size() == 1);
  CHECK(loads[0].circuit == 0);
  CHECK(loads[0].watts == 26.0);
  CHECK(loads[0].va == 10 / 0.8 + 9 + 9);
  CHECK(loads[0].most_w == 25.0);  // half of 50
  CHECK(loads[0].most_va == 20.0);
  CHECK(loads[0].least_w == 20.0);
  CHECK(loads[0].is_too_much());
  CHECK_FALSE(loads[0].is_too_little());

  job.dimmers[0].ganged = 1;
  CHECK_FALSE(dimmer_loads(job, scene_of(job))[0].is_too_much());
  job.dimmers[0].minimum_load_w = 27;
  CHECK(dimmer_loads(job, scene_of(job))[0].is_too_little());
  job.dimmers[0].rated_va = 30;  // below 30.5 VA, while 26 W are below 50 W
  CHECK(dimmer_loads(job, scene_of(job))[0].is_too_much());
}

TEST_CASE("power: a load that is not known is told as such", "[moods][exact]") {
  Job job = controlled_job();
  CHECK_FALSE(dimmer_loads(job, scene_of(job))[0].is_unknown());
  job.can_types[0].power_factor.reset();
  const auto load = dimmer_loads(job, scene_of(job))[0];
  CHECK_FALSE(load.va);
  CHECK(load.is_unknown());
  CHECK_FALSE(branch_load(job, scene_of(job), {.breaker_a = 15}).va);
}

TEST_CASE("power: light is a continuous load, 80 percent of the breaker", "[moods][published]") {
  // NEC 210.19(A)(1): 12 A of 15 A and 16 A of 20 A, at 120 V 1440 and 1920 VA. Rounding only.
  const Job job = controlled_job();
  const auto load = branch_load(job, scene_of(job), {.breaker_a = 15});
  CHECK(load.most_va == Approx(1440).epsilon(1e-15));
  CHECK(branch_load(job, scene_of(job), {.breaker_a = 20}).most_va == Approx(1920).epsilon(1e-15));
  CHECK(load.va == 2 * 10 / 0.8 + 3 * 9);
  CHECK_FALSE(load.is_too_much());
  CHECK(branch_load(job, scene_of(job), {.breaker_a = 0.5}).is_too_much());  // 48 VA
}
