#include "readings_text.hpp"

#include <catch2/catch.hpp>
#include <sstream>

#include "evenlit/base/utf8.hpp"
#include "report/sample_readings.hpp"

using namespace evenlit;

TEST_CASE("the tables of readings, whole", "[report][exact]") {
  CHECK(readings_sections(sample::readings(), Units::imperial) == R"(
Task areas                         Average       Minimum  Minimum/    Error
                                 fc     lx     fc     lx   average
  desk                         30.0    323   15.0    161      0.50    1.0 %
  Error: the numerical one, at most, of any point over the area's average.

Points                           fc     lx    Error
  pillow                       5.00   53.8    0.8 %  illuminance
  faces                        10.0    108    0.9 %  mean cylindrical
  view                          13.5 cd/m2    0.4 %  luminance of north

Surfaces                           Average       Minimum       Maximum Luminance
                                 fc     lx     fc     lx     fc     lx     cd/m2
  floor                        20.0    215      0      0   45.1    485      13.7
  Counted at 2 points; between them it may be darker or brighter. Numerical
  error of the averages: at most 1.9 %.
)");
}

TEST_CASE("the tables of readings of a metric job have lux first", "[report][exact]") {
  const std::string text = readings_sections(sample::readings(), Units::metric);
  CHECK(text.find("                                 lx     fc     lx     fc   average\n"
                  "  desk                          323   30.0    161   15.0      0.50    1.0 %\n") !=
        std::string::npos);
}

TEST_CASE("nothing is said of readings that there are not", "[report][exact]") {
  CHECK(readings_sections({}, Units::imperial).empty());
}

TEST_CASE("tables of readings stay within 80 columns whatever the names, which keep their values",
          "[report][property]") {
  auto light = sample::readings(std::string(70, 'd'));
  light.readings.points[2].surface = std::string(70, 's');
  light.readings.points[0].name = "tab\there";
  const std::string text = readings_sections(light, Units::imperial);
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) CHECK(code_points(line) <= 80);
  CHECK(text.find("  " + std::string(70, 'd') + "\n" + std::string(28, ' ') + "   30.0    323") != std::string::npos);
  CHECK(text.find("  tab?here ") != std::string::npos);
  CHECK(text.find("luminance\n") != std::string::npos);
}

TEST_CASE("readings of a dark room have no error that divides by nothing", "[report][exact]") {
  auto light = sample::readings();
  light.task_areas[0] = {};
  light.points[0] = {};
  light.surfaces[0] = {.luminance_cd_m2 = Estimate{}};
  const std::string text = readings_sections(light, Units::imperial);
  CHECK(text.find("  desk                            0      0      0      0      0.00     none\n") !=
        std::string::npos);
  CHECK(text.find("  pillow                          0      0     none  illuminance\n") != std::string::npos);
}
