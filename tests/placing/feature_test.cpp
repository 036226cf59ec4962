#include "evenlit/placing/feature.hpp"

#include <algorithm>
#include <cmath>

#include "ceilings.hpp"

using namespace evenlit;

namespace {

using Eigen::Vector2d;

const std::string k_things =
    "[[wall_areas]]\nname = \"window\"\nwall = \"south\"\nfrom = { west = \"60in\" }\nwidth = \"48in\"\nbottom = "
    "\"30in\"\ntop = \"78in\"\nreflectance = 0.1\n"
    "[[wall_areas]]\nname = \"door\"\nwall = \"south\"\nfrom = { east = \"10in\" }\nwidth = \"30in\"\ntop = "
    "\"80in\"\nreflectance = 0.5\n"
    "[[obstructions]]\nname = \"island\"\nfrom = { west = \"100in\", south = \"60in\" }\nwidth = \"40in\"\ndepth "
    "= \"20in\"\ntop = \"36in\"\n"
    "[[members]]\nname = \"beam\"\nfrom = { south = \"50in\" }\nthickness = \"3in\"\n"
    "[[keep_outs]]\nname = \"vent\"\nfrom = { west = \"30in\", south = \"20in\" }\ndiameter = \"6in\"\n";

}  // namespace

TEST_CASE("feature: a window's middle counts along its wall, a beam's square to it, an island's both ways",
          "[placing][exact]") {
  const Job job = job_from(bay_job("", k_things + can_at(32, 40)));
  const auto at = [&](const char* name) { return feature(job, name).value(); };
  CHECK((at("window").middle_m - k_inch * Vector2d(84, 0)).norm() < 1e-9);
  CHECK((at("door").middle_m - k_inch * Vector2d(215, 0)).norm() < 1e-9);
  CHECK((at("island").middle_m - k_inch * Vector2d(120, 70)).norm() < 1e-9);
  CHECK((at("vent").middle_m - k_inch * Vector2d(30, 20)).norm() < 1e-9);
  CHECK(at("beam").middle_m.y() == Approx(50 * k_inch).margin(1e-9));
  CHECK(held_axes(at("window"), Vector2d::UnitX()) == std::array{true, false});
  CHECK(held_axes(at("beam"), Vector2d::UnitX()) == std::array{false, true});
  CHECK(held_axes(at("island"), Vector2d::UnitX()) == std::array{true, true});
  CHECK_FALSE(feature(job, "fireplace"));
  CHECK(feature_names(job) == std::vector<std::string_view>{"island", "vent", "beam", "window", "door"});
}

TEST_CASE("feature: a layout centred on it keeps its spacing, and is none where it leaves the room",
          "[placing][exact]") {
  const Job job = job_from(bay_job("", k_things + can_at(32, 40)));
  const Polygon& plan = job.room.corners_m;
  const Layout even = even_layout(plan, 2, 3);
  const auto centred = centred_on(*feature(job, "window"), even, plan);
  REQUIRE(centred);
  // 120 in are the middle of the room.
  for (std::size_t can = 0; can < even.positions_m.size(); ++can) {
    CHECK((centred->positions_m[can] - even.positions_m[can] + k_inch * Vector2d(36, 0)).norm() < 1e-9);
  }
  CHECK(centred->spacing_m == even.spacing_m);
  CHECK(centred->wall_offset_m.x() == Approx((40 + 36) * k_inch).margin(1e-9));
  CHECK_FALSE(centred_on(*feature(job, "vent"), even, plan));
}
