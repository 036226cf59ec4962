#include "evenlit/moods/power.hpp"

#include <cmath>
#include <numbers>

#include "controlled_job.hpp"
#include "evenlit/job/wire.hpp"
#include "evenlit/moods/circuits.hpp"

using namespace evenlit;

TEST_CASE("power: what a cable loses on the way there and back", "[moods][formula]") {
  // 2 R I L / 1000 with R of NEC chapter 9, table 8 in ohm per 1000 ft and L one way in ft: by hand. Rounding only.
  constexpr double k_feet = 0.3048;
  CHECK(voltage_drop_v(wire_of(14).value(), 3, 60 * k_feet) == Approx(1.1052).epsilon(1e-12));
  CHECK(voltage_drop_v(wire_of(14).value(), 12, 50 * k_feet) == Approx(3.684).epsilon(1e-12));
  CHECK(voltage_drop_v(wire_of(12).value(), 16, 100 * k_feet) == Approx(6.176).epsilon(1e-12));
  CHECK_FALSE(wire_of(13));
}

TEST_CASE("power: resistances of wire are those of copper at 75 degrees", "[moods][formula]") {
  // Annealed copper (IEC 60028): 1.7241e-8 ohm m at 20 C, 0.00393 a kelvin; diameter by ASTM B258,
  // 0.005 in x 92^((36 - n) / 39). The code's table rounds to three digits: 0.5 %.
  for (const Wire& wire : k_wires) {
    const double diameter_m = 0.0254 * 0.005 * std::pow(92, (36 - wire.awg) / 39.0);
    const double area_m2 = std::numbers::pi / 4 * diameter_m * diameter_m;
    CHECK(wire.ohm_per_m == Approx(1.7241e-8 * (1 + 0.00393 * 55) / area_m2).epsilon(0.005));
  }
}

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

TEST_CASE("power: a long cable is told when it loses more than 3 percent", "[moods][published]") {
  // 3 %: NEC 210.19(A), informational note. 52 VA at 120 V over 14 AWG: 2 x 3.07 x 0.4333 x L / 1000, by hand.
  // Rounding.
  const Job job = controlled_job();
  const double feet = 0.3048;
  const auto load = branch_load(job, scene_of(job), {.breaker_a = 15, .run_m = 100 * feet});
  CHECK(load.drop_share.value() == Approx(0.614 * (52.0 / 120) / 120).epsilon(1e-12));
  CHECK_FALSE(load.loses_too_much());
  CHECK(branch_load(job, scene_of(job), {.breaker_a = 15, .run_m = 1400 * feet}).loses_too_much());
  CHECK_FALSE(branch_load(job, scene_of(job), {.breaker_a = 15}).drop_share);
}
