#include "evenlit/field/lumen_method.hpp"

#include <catch2/catch.hpp>

#include "rooms.hpp"

using namespace evenlit;
using namespace evenlit::testing;

TEST_CASE("the estimate for a scene uses plan, heights, levels and light loss", "[field][exact]") {
  Scene scene = box_room(4.2672, 3.6576, 2.4384);
  add_point(scene, {1, 1, 2.4384}, cosine_power(300, 1));
  add_point(scene, {3, 2, 2.4384}, cosine_power(300, 1));
  const LumenMethod full = lumen_method(scene, 0.762);
  CHECK(full.room_cavity_ratio == Approx(4.255952).epsilon(1e-6));
  CHECK(full.ceiling_cavity_ratio == 0);
  scene.luminaires[0].level = 0.5;
  scene.luminaires[1].output = 0.7;
  const LumenMethod dimmed = lumen_method(scene, 0.762);
  CHECK(dimmed.average_lx == Approx(full.average_lx * 0.6).epsilon(1e-12));
  CHECK(dimmed.coefficient_of_utilization == Approx(full.coefficient_of_utilization).epsilon(1e-12));
}
