#include "evenlit/report/terminal_report.hpp"

#include <catch2/catch.hpp>
#include <sstream>

#include "drawing/sample_light.hpp"
#include "evenlit/base/utf8.hpp"

using namespace evenlit;

TEST_CASE("the terminal report of a room, whole", "[report][exact]") {
  sample::Lit lit = sample::rectangular_room("Living room", 18, 13, 4, 2, 0.658);
  lit.light.statistics.minimum_at = 0;  // of four equally dark corners
  lit.light.statistics.maximum_at = 21;
  Problems warnings(1);
  warnings[0].place.file = "a.ies";
  warnings[0].place.line = 3;
  warnings[0].what = "lumens per lamp are \x1b[31m0";
  warnings[0].hint = "write the lumens of one lamp";
  CHECK(terminal_report(lit.job, lit.light, warnings) ==
        R"(Living room: 18' 0" x 13' 0", ceiling 8' 0"; 8 cans; work plane 2' 6" above the
  floor.

Illuminance on the work plane
  Target                                     30.0 fc          323 lx
  Average                                    39.5 fc          426 lx
  Minimum                                    25.4 fc          273 lx
  Maximum                                    48.5 fc          522 lx
  10th percentile                            31.0 fc          334 lx
  90th percentile                            47.9 fc          516 lx
  Minimum 11" from the south wall and 1' 0" from the west wall.
  Maximum 4' 8" from the south wall and 7' 0" from the west wall.
  Counted at 63 points of a grid of 2' 0" x 1' 10-5/16"; between them it may be
  darker or brighter.
  Numerical error: at most 0.4 % of the average at any point.

Evenness
  Uniformity, minimum / average                 0.64
  Minimum / maximum                             0.52
  Maximum / minimum                             1.91
  Coefficient of variation                      0.18
  Plane at or above target                      94 %
  Light straight from the cans                  83 %

Power
  Drawn                                       76.0 W
  Per floor area                         0.325 W/ft2       3.50 W/m2
  Light leaving the cans, after loss         7200 lm
  Efficacy                                 94.7 lm/W

Lumen method (zonal cavity), to check by hand
  Average                                    41.9 fc          451 lx
  Room cavity ratio                             3.60
  Coefficient of utilization                    0.81
  Ratio to the calculated average               1.06
  The lumen method spreads the cans evenly over an empty ceiling and aims them
  straight down; the calculation above takes them where and as they are.

Verdict
  Target met: 39.5 fc (426 lx) on average against 30.0 fc wanted; 94 % of the
  plane reaches it. Darkest 11" from the south wall and 1' 0" from the west
  wall: 25.4 fc.

Warnings
  a.ies:3: lumens per lamp are ?[31m0 (write the lumens of one lamp)
)");
}

TEST_CASE("no line of the terminal report is wider than 80 columns", "[report][property]") {
  sample::Lit lit = sample::l_shaped_room();
  lit.job.room.name = "Kitchen with an eating nook, a pantry and a rather long name that goes on for a while";
  lit.job.units = Units::metric;
  Problems warnings(1);
  warnings[0].what = "a remark of many words that fills more than one line of the terminal, because it goes on and on";
  std::istringstream lines(terminal_report(lit.job, lit.light, warnings));
  for (std::string line; std::getline(lines, line);) CHECK(code_points(line) <= 80);
}

TEST_CASE("a dark room without power has no ratio that divides by nothing", "[report][exact]") {
  sample::Lit lit = sample::living_room();
  lit.light.statistics = {};
  lit.light.field.total_lx.setZero();
  lit.light.field.error_lx.setZero();
  lit.light.watts = 0;
  lit.light.average_error_lx = 0;
  const std::string text = terminal_report(lit.job, lit.light, {});
  CHECK(text.find("Maximum / minimum                       none: 0 lx\n") != std::string::npos);
  CHECK(text.find("Efficacy") == std::string::npos);
  lit.light.watts.reset();
  const std::string unknown = terminal_report(lit.job, lit.light, {});
  CHECK(unknown.find("  Drawn                                    not known\n") != std::string::npos);
  CHECK(unknown.find("W/ft2") == std::string::npos);
  CHECK(unknown.find("  A can type in use has no watts: add watts = ... to it in the job file.\n") !=
        std::string::npos);
  CHECK(text.find("Over the average") == std::string::npos);
  CHECK(text.find(" nan") == std::string::npos);
  CHECK(text.find(" inf") == std::string::npos);
}
