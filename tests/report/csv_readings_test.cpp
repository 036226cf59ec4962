#include "evenlit/report/csv_readings.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "report/sample_readings.hpp"

using namespace evenlit;

TEST_CASE("readings as comma-separated values, whole", "[report][exact]") {
  CHECK(csv_readings(sample::readings()) ==
        "kind,name,area_m2,points,average_lx,average_fc,average_error_lx,minimum_lx,minimum_fc,maximum_lx,maximum_fc,"
        "uniformity,luminance_cd_m2,luminance_error_cd_m2\n"
        "task area,\"desk\",1.280,2,323.0,30.01,2.0,161.0,14.96,485.0,45.06,0.4985,,\n"
        "illuminance,\"pillow\",,1,53.80,4.998,0.40,,,,,,,\n"
        "mean cylindrical illuminance,\"faces\",,1,107.6,9.996,0.90,,,,,,,\n"
        "luminance,\"view\",,1,,,,,,,,,13.46,0.050\n"
        "surface,\"floor\",12.50,2,215.0,19.97,4.0,0,0,485.0,45.06,0.0000,13.69,0.25\n");
}

TEST_CASE("every row has as many cells as the header", "[report][property]") {
  const std::string csv = csv_readings(sample::readings());
  std::size_t start = 0;
  for (std::size_t end = csv.find('\n'); end != std::string::npos; end = csv.find('\n', start)) {
    CHECK(std::count(csv.begin() + start, csv.begin() + end, ',') == 13);
    start = end + 1;
  }
}

TEST_CASE("no name becomes a formula or a cell of its own", "[report][exact]") {
  const auto start_of = [](const std::string& name) {
    const std::string csv = csv_readings(sample::readings(name));
    const std::size_t start = csv.find("task area,");
    return csv.substr(start, csv.find(",1.280,") - start);
  };
  CHECK(start_of("=1+1") == "task area,\"'=1+1\"");
  CHECK(start_of("-a") == "task area,\"'-a\"");
  CHECK(start_of("@a") == "task area,\"'@a\"");
  CHECK(start_of("a \"b\", c") == "task area,\"a \"\"b\"\", c\"");
}
