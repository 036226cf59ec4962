#include "evenlit/base/light_units.hpp"

#include <catch2/catch.hpp>
#include <random>

using namespace evenlit;

TEST_CASE("light units: a foot-candle is 10.76391 lx", "[base][published]") {
  // NIST SP 811 (2008), B.8: footcandle to lux 1.076 391 E+01 (from memory); half of its last digit.
  CHECK(k_lux_per_footcandle == Approx(10.76391).margin(0.5e-5).epsilon(0));
}

TEST_CASE("light units: illuminances are read in lux and foot-candles", "[base][exact]") {
  CHECK(lux_from_text("300 lx") == 300.0);
  CHECK(lux_from_text("300lux") == 300.0);
  CHECK(lux_from_text(" 0 LX ") == 0.0);
  const auto text = GENERATE(as<std::string>{}, "30 fc", "30fc", "30 FC", "30 ft-c", "30 footcandles",
                             "30 foot-candles", "30 footcandle", "30 foot-candle", "30\u00a0fc", "3e1 fc");
  CAPTURE(text);
  CHECK(lux_from_text(text) == 30 * k_lux_per_footcandle);
}

TEST_CASE("light units: what is no illuminance is refused with the forms that are", "[base][exact]") {
  const std::string hint = "write lux like 300 lx, or foot-candles like 30 fc";
  const auto what = [&](std::string_view text) {
    const auto read = lux_from_text(text);
    REQUIRE_FALSE(read);
    CHECK(read.error().hint == hint);
    return read.error().what;
  };
  CHECK(what("") == R"("" is not an illuminance)");
  CHECK(what("bright") == R"("bright" is not an illuminance)");
  CHECK(what("lx") == R"("lx" is not an illuminance)");
  CHECK(what("30 fc 2") == R"("30 fc 2" is not an illuminance)");
  CHECK(what("1e400 lx") == R"("1e400 lx" is not an illuminance)");
  CHECK(what("1e308 fc") == R"("1e308 fc" is not an illuminance)");
  CHECK(what("nan lx") == R"("nan lx" is not an illuminance)");
  CHECK(what("300") == R"("300" has no unit)");
  CHECK(what("-3 lx") == R"("-3 lx" is below 0)");
}

TEST_CASE("light units: fractions are read as number, percentage or LRV", "[base][exact]") {
  CHECK(fraction_from_text("0.8") == 0.8);
  CHECK(fraction_from_text("0") == 0.0);
  CHECK(fraction_from_text("1") == 1.0);
  const auto text = GENERATE(as<std::string>{}, "80 %", "80%", "LRV 80", "lrv80", " LRV  80 ", "LRV 80 %", "8e1 %");
  CAPTURE(text);
  CHECK(fraction_from_text(text) == 0.8);
}

TEST_CASE("light units: what is no fraction is refused with the forms that are", "[base][exact]") {
  const std::string hint = "write a fraction from 0 to 1 like 0.8, a percentage like 80 %, or LRV 80";
  const auto what = [&](std::string_view text) {
    const auto read = fraction_from_text(text);
    REQUIRE_FALSE(read);
    CHECK(read.error().hint == hint);
    return read.error().what;
  };
  CHECK(what("") == R"("" is not a fraction)");
  CHECK(what("white") == R"("white" is not a fraction)");
  CHECK(what("LRV") == R"("LRV" is not a fraction)");
  CHECK(what("%") == R"("%" is not a fraction)");
  CHECK(what("nan") == R"("nan" is not a fraction)");
  CHECK(what("1.2") == R"("1.2" is above 1)");
  CHECK(what("120 %") == R"("120 %" is above 1)");
  CHECK(what("LRV 101") == R"("LRV 101" is above 1)");
  CHECK(what("-5 %") == R"("-5 %" is below 0)");
}

TEST_CASE("light units: an exact illuminance text is what the trade writes, where that is exact", "[base][exact]") {
  CHECK(exact_illuminance_text(30 * k_lux_per_footcandle, Units::imperial) == "30 fc");
  CHECK(exact_illuminance_text(7.5 * k_lux_per_footcandle, Units::imperial) == "7.5 fc");
  CHECK(exact_illuminance_text(300, Units::imperial) == "300 lx");
  CHECK(exact_illuminance_text(300, Units::metric) == "300 lx");
}

TEST_CASE("light units: an exact illuminance text reads back as the same double", "[base][property]") {
  std::mt19937_64 random(11);
  for (int i = 0; i < 500; ++i) {
    const double lux = std::uniform_real_distribution(0.0, 2000.0)(random);
    CAPTURE(lux);
    CHECK(lux_from_text(exact_illuminance_text(lux, Units::imperial)) == lux);
    CHECK(lux_from_text(exact_illuminance_text(lux, Units::metric)) == lux);
  }
}
