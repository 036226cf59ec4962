#include "evenlit/report/verdict.hpp"

#include <catch2/catch.hpp>

#include "drawing/sample_light.hpp"

using namespace evenlit;

namespace {

sample::Lit study() {
  sample::Lit lit = sample::rectangular_room("Study", 18, 13, 4, 2, 0.658);
  lit.light.statistics.minimum_at = 0;  // of four equally dark corners
  return lit;
}

const std::string k_darkest = " Darkest 11\" from the south wall and 1' 0\" from the west wall: 25.4 fc.";

}  // namespace

TEST_CASE("the verdict says whether the target is met and where it is darkest", "[report][exact]") {
  sample::Lit lit = study();
  CHECK(verdict(lit.job, lit.light) ==
        "Target met: 39.5 fc (426 lx) on average against 30.0 fc wanted; 94 % of the plane reaches it." + k_darkest);
  lit.job.target_lx = 50 / (sample::k_foot * sample::k_foot);
  CHECK(verdict(lit.job, lit.light) ==
        "Target not met: 39.5 fc (426 lx) on average against 50.0 fc wanted, 21 % short." + k_darkest);
}

TEST_CASE("a target within the numerical error is neither met nor missed", "[report][exact]") {
  sample::Lit lit = study();
  lit.job.target_lx = lit.light.statistics.average_lx + 0.5 * lit.light.average_error_lx;
  CHECK(verdict(lit.job, lit.light) ==
        "Target too close to call: 39.5 fc (426 lx) on average, which the numerical error does not set apart from "
        "39.6 fc." +
            k_darkest);
}

TEST_CASE("without a target the verdict gives the average", "[report][exact]") {
  sample::Lit lit = study();
  lit.job.target_lx.reset();
  lit.job.units = Units::metric;
  CHECK(verdict(lit.job, lit.light) ==
        "No target is set: 426 lx (39.5 fc) on average. Darkest 0.28 m from the south wall and 0.30 m from the west "
        "wall: 273 lx.");
}
