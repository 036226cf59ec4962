#include "evenlit/base/length.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace evenlit;

TEST_CASE("length: every way to write twelve feet six and three eighths", "[base][exact]") {
  // 150.375 in x 0.0254 m/in = 3.819525 m.
  const auto text = GENERATE(
      as<std::string>{}, "12' 6-3/8\"", "12'-6 3/8\"", "12' 6 3/8", "12'6-3/8\"", "12' - 6-3/8\"", "12ft 6.375in",
      "12 ft 6 3/8 in", "12 FT 6-3/8 IN", "12 feet 6 3/8 inches", "12 foot 6.375 inch", "12ft. 6.375in.", "12' 6.375''",
      "12′ 6⅜″", "12’ 6-3/8”", "12\u00a0ft\u00a06⅜\u00a0in", "12' 6⅜", "150 3/8\"", "150 3/8 in", "150-3/8in", "150⅜″",
      "150.375\"", "  150.375in  ", "+12' 6-3/8\"", "12.53125'", "12 17/32 ft", "3.819525 m", "381.9525 cm",
      "3819.525 mm", "3.819525 metres", "3.819525 Meters", "0.3819525e1 m", "11' 18-3/8\"", "12' 6 6⁄16\"");
  CAPTURE(text);
  CHECK(metres_from_text(text) == 3.819525);
}

TEST_CASE("length: single terms, zero and signs", "[base][exact]") {
  CHECK(metres_from_text("7/8\"") == 0.022225);
  CHECK(metres_from_text("½ in") == 0.0127);
  CHECK(metres_from_text("12'") == 3.6576);
  CHECK(metres_from_text("12.5'") == 3.81);
  CHECK(metres_from_text("3.81 m") == 3.81);
  CHECK(metres_from_text("381 cm") == 3.81);
  CHECK(metres_from_text("3810 mm") == 3.81);
  CHECK(metres_from_text(".5 m") == 0.5);
  CHECK(metres_from_text("0") == 0.0);
  CHECK(metres_from_text("0.0") == 0.0);
  CHECK(metres_from_text("0' 14\"") == 0.3556);
  CHECK(metres_from_text("-1' 2\"") == -0.3556);
  CHECK(metres_from_text("−1' 2\"") == -0.3556);
  CHECK(metres_from_text("- 3 m") == -3.0);
}

TEST_CASE("length: what is no length is refused with the forms that are", "[base][exact]") {
  const auto text = GENERATE(as<std::string>{}, "", "   ", "twelve", "12 x 6", "12' 3 m", "3 m 12'", "3 m 81 cm",
                             "6\" 12'", "12' 6\" 3\"", "12.5' 6\"", "12 3/0\"", "3/0 in", "nan m", "inf ft", "1e400 m",
                             "1e309 in", "12 ft wide", "12' 6\" x", "12 furlongs", "m", "'", "12' -", "12 ft -",
                             "--3 m", "1.2.3 m", "12' 6-3/8\"\"", "0x10 m", "6 3/8 1/2 in", "12 6 in", "12' 3/8/8\"");
  CAPTURE(text);
  const auto read = metres_from_text(text);
  REQUIRE_FALSE(read);
  CHECK(read.error().what == '"' + text + "\" is not a length");
  CHECK(read.error().hint == "write feet and inches like 12ft 6-3/8in, or metres like 3.81 m");
}

TEST_CASE("length: a number without a unit says so", "[base][exact]") {
  const auto text = GENERATE(as<std::string>{}, "12", "-3.81", "6 3/8");
  const auto read = metres_from_text(text);
  REQUIRE_FALSE(read);
  CHECK(read.error().what == '"' + text + "\" has no unit");
  CHECK(read.error().hint == "write feet and inches like 12ft 6-3/8in, or metres like 3.81 m");
}

TEST_CASE("length: a decimal comma is answered with a point", "[base][exact]") {
  const auto read = metres_from_text("3,81 m");
  REQUIRE_FALSE(read);
  CHECK(read.error().what == "\"3,81 m\" is not a length");
  CHECK(read.error().hint == "write the decimals after a point: 3.81 m");
}

TEST_CASE("length: any text is read or refused, never more", "[base][property]") {
  const std::string letters = "0123456789'\"-/ .,eftinmc+\xe2\x85\x9c\xff";
  std::mt19937_64 random(5);
  for (int i = 0; i < 20000; ++i) {
    std::string text;
    for (auto length = random() % 12; length > 0; --length) text += letters[random() % letters.size()];
    const auto read = metres_from_text(text);
    CAPTURE(text);
    CHECK((read ? std::isfinite(*read) : !read.error().what.empty()));
  }
}

TEST_CASE("length: feet and inches as the trade writes them", "[base][exact]") {
  CHECK(feet_inches(3.819525) == "12' 6-3/8\"");
  CHECK(feet_inches(0.1778) == "7\"");
  CHECK(feet_inches(0.009525) == "3/8\"");
  CHECK(feet_inches(0) == "0\"");
  CHECK(feet_inches(-0.3556) == "-1' 2\"");
  CHECK(feet_inches(3.6576) == "12' 0\"");
  CHECK(feet_inches(0.314325) == "1' 0-3/8\"");
  CHECK(feet_inches(0.0127, 2) == "1/2\"");
  CHECK(feet_inches(0.0127, 1) == "1\"");
}

TEST_CASE("length: rounding carries through inches to feet", "[base][exact]") {
  CHECK(feet_inches((11 + 31.0 / 32) * 0.0254) == "1' 0\"");
  CHECK(feet_inches((23 + 31.0 / 32) * 0.0254) == "2' 0\"");
  CHECK(feet_inches((5 + 31.0 / 32) * 0.0254) == "6\"");
  CHECK(feet_inches((11 + 31.0 / 32) * 0.0254, 32) == "11-31/32\"");
  CHECK(feet_inches(-0.0005) == "0\"");
}

TEST_CASE("length: metric lengths to the millimetre", "[base][exact]") {
  CHECK(metric_length(3.81) == "3.81 m");
  CHECK(metric_length(3.8) == "3.80 m");
  CHECK(metric_length(3.815) == "3.815 m");
  CHECK(metric_length(3) == "3.00 m");
  CHECK(metric_length(0.00049) == "0.00 m");
  CHECK(metric_length(-0.0001) == "0.00 m");
  CHECK(metric_length(-1.25) == "-1.25 m");
  CHECK(length_text(3.81, Units::metric) == "3.81 m");
  CHECK(length_text(3.81, Units::imperial) == "12' 6\"");
}

TEST_CASE("length: an exact text is what the trade writes, where that is exact", "[base][exact]") {
  const auto exact = [](std::string_view text, Units units) {
    return exact_length_text(*metres_from_text(text), units);
  };
  CHECK(exact("12' 6-3/8\"", Units::imperial) == "12ft 6-3/8in");
  CHECK(exact("6-17/64\"", Units::imperial) == "6-17/64in");
  CHECK(exact("12' 6.3\"", Units::imperial) == "12ft 6.3in");
  CHECK(exact("3.81 m", Units::imperial) == "12ft 6in");
  CHECK(exact("0.25 m", Units::imperial) == "0.25 m");
  CHECK(exact("-1' 2\"", Units::imperial) == "-1ft 2in");
  CHECK(exact("0", Units::imperial) == "0in");
  CHECK(exact("3.81 m", Units::metric) == "3.81 m");
  CHECK(exact("381 cm", Units::metric) == "3.81 m");
  CHECK(exact("25 mm", Units::metric) == "25 mm");
  CHECK(exact("6-3/8\"", Units::metric) == "161.925 mm");
  CHECK(exact("0", Units::metric) == "0 mm");
}

TEST_CASE("length: an exact text reads back as the same double and holds no quotation mark", "[base][property]") {
  std::mt19937_64 random(20240502);
  const auto check = [](double metres) {
    for (const auto units : {Units::imperial, Units::metric}) {
      const auto text = exact_length_text(metres, units);
      CAPTURE(metres, text);
      CHECK(metres_from_text(text) == metres);
      CHECK(text.find('"') == std::string::npos);
    }
  };
  for (int i = 0; i < 1000; ++i) {
    check(std::uniform_real_distribution(-50.0, 50.0)(random));
    check(std::ldexp(std::uniform_real_distribution(-1.0, 1.0)(random), static_cast<int>(random() % 2000) - 1000));
    check(static_cast<double>(random() % 100000) * 254 / 640000);  // sixty-fourths of an inch
    check(static_cast<double>(random() % 100000) / 1000);          // millimetres
  }
}

TEST_CASE("length: feet and inches are within half a sixteenth of the length", "[base][property]") {
  // Half of 1/16 in is 0.79375 mm; a nanometre for rounding in the conversion of lengths below 100 m.
  std::mt19937_64 random(9);
  for (int i = 0; i < 2000; ++i) {
    const double metres = std::uniform_real_distribution(-100.0, 100.0)(random);
    const auto text = feet_inches(metres);
    CAPTURE(metres, text);
    const auto back = metres_from_text(text);
    REQUIRE(back);
    CHECK(std::abs(*back - metres) <= 0.79375e-3 + 1e-9);
  }
}

TEST_CASE("length: a tape reads feet and inches and inches alone", "[base][exact]") {
  CHECK(tape_reading(150.375 * k_metres_per_inch, Units::imperial) == "12' 6-3/8\" (150-3/8\")");
  CHECK(tape_reading(12 * k_metres_per_inch, Units::imperial) == "1' 0\" (12\")");
  CHECK(tape_reading(12.5 * k_metres_per_inch, Units::imperial) == "1' 0-1/2\" (12-1/2\")");
  CHECK(tape_reading(11.97 * k_metres_per_inch, Units::imperial) == "1' 0\" (12\")");  // 11-31/32" is nearest to 12"
  CHECK(tape_reading(0.5 * k_metres_per_inch, Units::imperial) == "1/2\"");
  CHECK(tape_reading(0, Units::imperial) == "0\"");
  CHECK(tape_reading(-14 * k_metres_per_inch, Units::imperial) == "-1' 2\" (-14\")");
  CHECK(tape_reading(3.8154, Units::metric) == "3815 mm");
}

TEST_CASE("length: the nearest that a tape shows is the double that its text stands for", "[base][exact]") {
  CHECK(tape_length_m(1.2192 + 0.0007, Units::imperial) == 1.2192);
  CHECK(tape_length_m(1.2192 + 0.0009, Units::imperial) == *metres_from_text("4ft 0-1/16in"));
  CHECK(tape_length_m(-0.0254, Units::imperial) == *metres_from_text("-1in"));
  CHECK(tape_length_m(3.8146, Units::metric) == 3.815);
  for (int i = 0; i < 2000; ++i) {
    const double metres = tape_length_m(0.00317 * i, Units::imperial);
    CHECK(metres_from_text(feet_inches(metres)) == metres);
  }
}
