#include "evenlit/placing/fan_check.hpp"

#include <cmath>
#include <numbers>

#include "ceilings.hpp"
#include "evenlit/photometry/synthetic.hpp"

using namespace evenlit;

namespace {

/// A can so far west of a fan of 1 m under a 3 m ceiling, whose blades are 0.4 m below it.
Job job_with_fan(double distance_m, const std::string& of_can = "") {
  return job_from(
      "[room]\nwidth = \"8 m\"\ndepth = \"6 m\"\nceiling = \"3 m\"\n"
      "[[fans]]\nname = \"fan\"\nfrom = { west = \"4 m\", south = \"3 m\" }\ndiameter = \"1 m\"\ndrop = \"0.4 m\"\n"
      "[can_types.round]\nbeam = { lumens = 900, angle = 60, field = 100 }\n[[cans]]\ntype = \"round\"\nfrom = { west "
      "= \"" +
      std::to_string(4 - distance_m) + " m\", south = \"3 m\" }\n" + of_can);
}

std::vector<FanHit> hits_of(const Job& job) {
  const auto file = synthetic_file(*job.can_types[0].beam);
  REQUIRE(file);
  return fan_check(job, {&*file, 1});
}

}  // namespace

TEST_CASE("fan check: a can whose field reaches the blades is told", "[placing][exact]") {
  // The blades' nearest point is 0.4 m lower and (distance - 0.5) m off: atan of the two from straight down.
  const double limit_m = 0.5 + 0.4 * std::tan(50 * std::numbers::pi / 180);
  CHECK(hits_of(job_with_fan(limit_m + 0.01)).empty());
  const auto hits = hits_of(job_with_fan(limit_m - 0.01));
  REQUIRE(hits.size() == 1);
  // The synthetic beam has its field angle to rounding.
  CHECK(hits[0].field_angle_deg == Approx(100).margin(1e-6));
  CHECK(hits[0].blade_angle_deg ==
        Approx(std::atan((limit_m - 0.01 - 0.5) / 0.4) * 180 / std::numbers::pi).margin(1e-9));
  CHECK(hits_of(job_with_fan(0.2)).at(0).blade_angle_deg == 0);
}

TEST_CASE("fan check: what is aimed away, or hangs below the blades, is not chopped", "[placing][exact]") {
  CHECK(hits_of(job_with_fan(0.8)).size() == 1);
  CHECK(hits_of(job_with_fan(0.8, "aim = { tilt = 40, toward = 180 }\n")).empty());
  CHECK(hits_of(job_with_fan(1.2)).empty());
  CHECK(hits_of(job_with_fan(1.2, "aim = { tilt = 40, toward = 0 }\n")).size() == 1);
  CHECK(hits_of(job_with_fan(0.8, "drop = \"1 m\"\n")).empty());
  // An uplight below the fan.
  CHECK(hits_of(job_with_fan(0.8, "drop = \"2 m\"\naim = { tilt = 180 }\n")).size() == 1);
}

TEST_CASE("fan check: light that ends above a tenth of its peak reaches as far as its data", "[placing][exact]") {
  PhotometricFile file;
  file.distribution.gamma_deg = {0, 70};
  file.distribution.c_deg = {0};
  file.distribution.candela = Eigen::ArrayXXd::Constant(2, 1, 100);
  CHECK(field_cone_deg(file) == 140);
}
