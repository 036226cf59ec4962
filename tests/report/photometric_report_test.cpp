#include "evenlit/report/photometric_report.hpp"

#include <catch2/catch.hpp>
#include <sstream>

#include "evenlit/base/utf8.hpp"
#include "photometric_sample.hpp"

using namespace evenlit;

namespace {

std::string report(const PhotometricFile& file, const Problems& warnings = {}) {
  return photometric_report(file, photometric_summary(file), warnings, "a.ies");
}

/// From a heading to the next one.
std::string section(const std::string& text, const std::string& heading) {
  const auto from = text.find("\n" + heading);
  REQUIRE(from != text.npos);
  const auto to = text.find("\n\n", from + 1);
  return text.substr(from + 1, to == text.npos ? to : to - from);
}

int widest_line(const std::string& text) {
  std::istringstream lines(text);
  int widest = 0;
  for (std::string line; std::getline(lines, line);) widest = std::max(widest, code_points(line));
  return widest;
}

}  // namespace

TEST_CASE("the photometric report says what the luminaire is", "[report][exact]") {
  const std::string text = report(sample::photometric_file());
  CHECK(text.substr(0, 7) == "a.ies\n\n");
  CHECK(section(text, "Luminaire") ==
        R"(Luminaire
  Maker               Nobody
  Catalogue number    X-1
  Test                17
  Lamp set 1          1 x LED module, 3000 lm rated, colour 3000 K, rendering 90, 25.0 W (the one
                      used here)
  Lamp set 2          2 x tube, 2500 lm rated
  Luminous opening    rectangular, 2' 0" (0.61 m) along C 0, 1' 0" (0.305 m) along C 90
  File                LM-63-2002, 19 angles 0 to 90 deg in 5 planes 0 to 360 deg around the vertical
  Photometry          relative to the rated light of the lamps
  The opening is what shines, not the hole to cut: that one is in the maker's
  instructions.
)");
  CHECK(section(text, "More of what") ==
        "More of what the file says\n  [OTHER]             first\n"
        "                      free text\n");
}

// 1000 cos^2 along chords of 5 degrees: 2097.05 lm by Simpson's rule (2094.4 along the curve); beam and field
// angle 90.0 and 143.1 degrees.
TEST_CASE("the photometric report gives the light in figures", "[report][exact]") {
  CHECK(section(report(sample::photometric_file()), "Light") ==
        R"(Light
  Light leaving the luminaire                2100 lm
  Light of the lamps, rated                  3000 lm
  Light output ratio (efficiency)             69.9 %
  Power drawn                                 25.0 W
  Efficacy                                 83.9 lm/W
  Maximum intensity                          1000 cd
  Its angle from straight down                 0 deg
  Intensity straight down (centre)           1000 cd
  Full angles, in the plane of             C 0 - 180      C 90 - 270
  Beam angle, 50 % of maximum (IES)         90.0 deg        90.0 deg
  Field angle, 10 % of maximum (IES)         143 deg         143 deg
  Beam angle, 50 % of centre (CIE)          90.0 deg        90.0 deg
  C planes are the luminaire's own: C 0 points where its file has it, C 90 a
  quarter turn on, counter-clockwise as seen from above.
)");
}

// 1000 cd / 1.2192^2 m2 = 672.75 lx = 62.5 fc; twice the distance wide at 90 degrees.
TEST_CASE("the photometric report has the cone of light in both units", "[report][exact]") {
  const std::string text = report(sample::photometric_file());
  CHECK(text.find("\n        4 ft       62.5 fc            8' 0\"             8' 0\"\n") != text.npos);
  CHECK(text.find("\n       2.5 m        160 lx           5.00 m            5.00 m\n") != text.npos);
}

TEST_CASE("the photometric report says what there is not", "[report][exact]") {
  auto file = sample::photometric_file();
  file.lamp_sets = {LampSet{}};
  file.opening = {};
  file.distribution = {{0, 90, 180}, {0}, Eigen::ArrayXXd(3, 1)};
  file.distribution.candela << 0, 10, 100;
  file.tilt = TiltData{1, {0, 90}, {0.925, 0.5}};
  const std::string text = report(file);
  CHECK(text.find("Luminous opening    a point, no sizes given\n") != text.npos);
  CHECK(text.find("Photometry          absolute: of the luminaire as a whole, no lamp lumens\n") != text.npos);
  CHECK(text.find("Power drawn                              not given\n") != text.npos);
  CHECK(text.find("Beam angle, 50 % of maximum (IES)             none\n") != text.npos);
  CHECK(text.find("where the file's tilt factor is\n  0.925.\n") != text.npos);
  CHECK(text.find("  None: there is no light straight down, or most of it goes up.\n") != text.npos);
  CHECK(text.find("  None: the file gives no opening that has an area from the side.\n") != text.npos);
  CHECK(text.find("Coefficients of utilization, percent of the light of the luminaire\n") != text.npos);
  CHECK(text.find("170 - 180 deg") != text.npos);
  CHECK(text.find("output ratio") == text.npos);
  CHECK(text.find("Of the lamps") == text.npos);
  for (const char* word : {" nan", " inf", "-0"}) CHECK(text.find(word) == text.npos);
}

TEST_CASE("the photometric report prints every warning at its line, and no text of the file as it is",
          "[report][exact]") {
  auto file = sample::photometric_file();
  file.keywords.emplace_back("_A\x1b[2J", "b\nc\x7f");
  const std::string text = report(file, sample::photometric_warnings());
  CHECK(section(text, "Warnings") ==
        "Warnings\n  a.ies:3: lumens are ?[31m0 (write the lumens of one lamp)\n  a.ies:9: odd\n");
  CHECK(text.find("[_A?[2J]            b?c?\n") != text.npos);
}

TEST_CASE("no line of the photometric report is wider than 100 columns", "[report][property]") {
  auto file = sample::photometric_file();
  const std::string word(500, 'x');
  file.keywords.emplace_back("MANUFAC", word);
  file.keywords.emplace_back(word, "many words " + word + " and more of them to fill the line");
  file.distribution.candela(4, 1) = 1234567;  // all planes differ, large numbers
  file.distribution.candela(3, 2) = 2345678;
  CHECK(widest_line(report(file, sample::photometric_warnings())) <= 100);
  CHECK(widest_line(photometric_report(file, photometric_summary(file), {}, word)) <= 100);
}
