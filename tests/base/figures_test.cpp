#include "evenlit/base/figures.hpp"

#include <catch2/catch.hpp>

using namespace evenlit;

TEST_CASE("a figure has three significant digits", "[base][exact]") {
  CHECK(rounded_text(0) == "0");
  CHECK(rounded_text(33.4412) == "33.4");
  CHECK(rounded_text(359.6) == "360");
  CHECK(rounded_text(4.567) == "4.57");
  CHECK(rounded_text(0.012345) == "0.0123");
  CHECK(rounded_text(10764) == "10800");
  CHECK(rounded_text(100) == "100");
}

TEST_CASE("a figure that is rounded up to a power of ten keeps three significant digits", "[base][exact]") {
  CHECK(rounded_text(9.994) == "9.99");
  CHECK(rounded_text(9.996) == "10.0");
  CHECK(rounded_text(99.96) == "100");
  CHECK(rounded_text(999.6) == "1000");
  CHECK(rounded_text(9996) == "10000");
  CHECK(rounded_text(0.9996) == "1.00");
  CHECK(rounded_text(0.009996) == "0.0100");
  CHECK(rounded_text(9.996, 0.01) == "10.0");
  CHECK(rounded_text(9.6, 0.3) == "9.6");
  CHECK(rounded_text(9.96, 0.3) == "10.0");
  CHECK(rounded_text(9.6, 1) == "10");
}

TEST_CASE("a figure has no digit below the leading digit of its error", "[base][exact]") {
  CHECK(rounded_text(33.4412, 0.09) == "33.4");
  CHECK(rounded_text(33.4412, 0.9) == "33.4");
  CHECK(rounded_text(33.4412, 1.2) == "33");
  CHECK(rounded_text(359.6, 20) == "360");
  CHECK(rounded_text(359.6, 200) == "400");
  CHECK(rounded_text(0.4, 1e-300) == "0.400");
}

TEST_CASE("illuminance is written in the trade's unit first", "[base][exact]") {
  CHECK(illuminance_both_text(322.917, 0, Units::imperial) == "30.0 fc (323 lx)");
  CHECK(illuminance_both_text(322.917, 0, Units::metric) == "323 lx (30.0 fc)");
}

TEST_CASE("a relative error is rounded up, never down", "[base][exact]") {
  CHECK(error_percent_text(0) == "0.0 %");
  CHECK(error_percent_text(0.0011) == "0.2 %");
  CHECK(error_percent_text(0.25) == "25.0 %");
}
