#include <algorithm>
#include <catch2/catch.hpp>

#include "eulumdat_sample.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

struct Case {
  std::string name;
  std::string bytes;
  std::string warnings;
};

std::vector<Case> header_cases() {
  const auto with = [](auto change) { return eulumdat_with(change); };
  return {
      {"type 0", with([](auto& s) { s.line(2) = "0"; }),
       "can.ldt:2:1: type indicator \"0\" is not 1, 2 or 3; it is not used\n"},
      {"no type", with([](auto& s) { s.line(2) = ""; }),
       "can.ldt:2:1: type indicator \"\" is not 1, 2 or 3; it is not used\n"},
      {"type 1 without its symmetry", planes_with(4, 15, [](auto& s) { s.line(2) = "1"; }),
       "can.ldt:2:1: type indicator 1, symmetry about the vertical, against symmetry indicator 4, which counts\n"},
      {"unit", with([](auto& s) { s.line(13) = "200 mm"; }),
       "can.ldt:13:1: length of the luminaire \"200 mm\": the text after the number is not used\n"
       "hint: write the number alone\n"},
      {"empty numbers", with([](auto& s) { s.line(5) = s.line(7) = s.line(15) = s.line(18) = s.line(25) = ""; }),
       "can.ldt:5:1: line that should hold a number is empty, read as 0 (5 times)\n"
       "hint: write 0\n"},
      {"negative size", with([](auto& s) { s.line(13) = "-200"; }),
       "can.ldt:13:1: length of the luminaire is negative; its sign is not used\n"},
      {"absurd size", with([](auto& s) { s.line(15) = "60000"; }),
       "can.ldt:15:1: height of the luminaire 60000 mm is implausible\n"
       "hint: sizes are in millimetres\n"},
      {"luminous area larger", with([](auto& s) { s.line(16) = "201"; }),
       "can.ldt:16:1: luminous area is larger than the luminaire\n"},
      {"no length", with([](auto& s) {
         s.line(13) = s.line(16) = "0";
         s.line(14) = s.line(17) = "200";
       }),
       "can.ldt:13:1: length of the luminaire is 0 while the width is not\n"
       "hint: of what is round, the diameter is the length and the width is 0\n"
       "can.ldt:16:1: length of the luminous area is 0 while the width is not\n"
       "hint: of what is round, the diameter is the length and the width is 0\n"},
      {"factor 0", with([](auto& s) { s.line(24) = "0"; }),
       "can.ldt:24:1: conversion factor is 0 or missing; 1 is used\n"
       "hint: write 1\n"},
      {"no factor", with([](auto& s) { s.line(24) = ""; }),
       "can.ldt:24:1: conversion factor is 0 or missing; 1 is used\n"
       "hint: write 1\n"},
      {"tilt", with([](auto& s) { s.line(25) = "15"; }),
       "can.ldt:25:1: luminaire was tilted by 15 degrees when it was measured; the intensities are used as they "
       "stand\n"},
      {"unit after the number of lamp sets", with([](auto& s) { s.line(26) = "1 set"; }),
       "can.ldt:26:1: number of lamp sets \"1 set\": the text after the number is not used\n"
       "hint: write the number alone\n"},
  };
}

std::vector<Case> lamp_cases() {
  const auto with = [](auto change) { return eulumdat_with(change); };
  return {
      {"no lamps", with([](auto& s) { s.lamps[0] = "0"; }), "can.ldt:27:1: number of lamps is 0; 1 is used\n"},
      {"units", with([](auto& s) {
         s.lamps[2] = "3141.6 lm";
         s.lamps[5] = "10W";
       }),
       "can.ldt:29:1: lamp flux \"3141.6 lm\": the text after the number is not used\n"
       "hint: write the number alone\n"
       "can.ldt:32:1: watts of the lamp set, \"10W\": the text after the number is not used\n"
       "hint: write the number alone\n"},
      {"no watts", with([](auto& s) { s.lamps[5] = ""; }),
       "can.ldt:32:1: watts of the lamp set are missing; the power counts as unknown\n"},
      {"negative watts", with([](auto& s) { s.lamps[5] = "-10"; }),
       "can.ldt:32:1: watts of the lamp set, -10, are negative; the power counts as unknown\n"},
      {"absolute, several sets", with([](auto& s) {
         s.line(26) = "2";
         s.lamps = {"-1", "LED", "3141.6", "4000", "80", "10", "1", "lamp", "2000", "4000", "80", "10"};
       }),
       "can.ldt:27:1: absolute photometry has one lamp set, here there are 2; set 1 is used\n"},
      {"set without flux", with([](auto& s) {
         s.line(26) = "2";
         s.lamps = {"1", "LED", "3141.6", "4000", "80", "10", "1", "lamp", "0", "4000", "80", "10"};
       }),
       "can.ldt:35:1: lamp flux 0 is not positive; lamp set 2 cannot be used\n"},
      {"sets that can be read in two ways", with([](auto& s) {
         s.line(26) = "2";
         s.lamps = {"1", "1", "36", "58", "3141.6", "5000", "4000", "4000", "80", "80", "10", "20"};
       }),
       "can.ldt:27:1: lines of the lamp sets can be read in two ways; they are read as the numbers of lamps of all "
       "sets, then all their types, and so on\n"},
      {"direct ratios", with([](auto& s) { s.direct_ratios = {"", "0.5 0.6 0.7", "", "", "0 %", "none", "1", ""}; }),
       "can.ldt:33:1: direct ratio is missing; direct ratios are not used (4 times)\n"
       "can.ldt:34:1: more than one direct ratio on a line\n"
       "hint: write each on a line of its own\n"},
  };
}

std::vector<Case> angle_cases() {
  const auto with = [](auto change) { return eulumdat_with(change); };
  return {
      {"steps",
       planes_with(4, 15,
                   [](auto& s) {
                     s.line(5) = "10";
                     s.line(7) = "5";
                   }),
       "can.ldt:44:1: distance between C planes 10 does not agree with the C angles, which are used\n"
       "can.ldt:68:1: distance between vertical angles 5 does not agree with the vertical angles, which are used\n"},
      {"vertical angles descend", with([](auto& s) {
         std::reverse(s.gamma_deg.begin(), s.gamma_deg.end());
         std::reverse(s.intensities.begin(), s.intensities.end());
       }),
       "can.ldt:44:1: vertical angles descend; they and their candelas are turned around\n"
       "hint: write angles in ascending order\n"},
      {"last vertical angle missing", with([](auto& s) {
         s.line(6) = "6";
         s.gamma_deg.pop_back();
         s.intensities.pop_back();
         s.intensities.back() = "0";
         s.line(23) = "86";
       }),
       "can.ldt:49:1: vertical angles end at 75; from there to 90 the intensity is held\n"},
      {"vertical angles end early", with([](auto& s) {
         s.line(6) = "5";
         s.gamma_deg.resize(5);
         s.intensities.resize(5);
         s.intensities.back() = "0";
         s.line(23) = "64";
       }),
       "can.ldt:48:1: vertical angles end at 60; from there to 90 the intensity counts as 0\n"},
      {"first vertical angle missing", with([](auto& s) {
         s.line(6) = "6";
         s.gamma_deg.erase(s.gamma_deg.begin());
         s.intensities.erase(s.intensities.begin());
       }),
       "can.ldt:44:1: vertical angles begin at 15; from there to 0 the intensity is held\n"},
      {"only upward", with([](auto& s) {
         s.line(22) = "0";
         for (int i = 0; i < 7; ++i) s.gamma_deg[i] = std::to_string(90 + 15 * i);
         std::reverse(s.intensities.begin(), s.intensities.end());
       }),
       "can.ldt:44:1: vertical angles begin at 90; below the horizontal there is no light\n"},
      {"C angles from 270",
       planes_with(3, 90,
                   [](auto& s) {
                     s.c_deg = {"270", "0", "90", "180"};
                   }),
       "can.ldt:43:1: C angles begin at 270; the planes are taken in the order of the list\n"
       "hint: begin the list at 0\n"},
      {"C angles from 10",
       planes_with(0, 90,
                   [](auto& s) {
                     s.c_deg = {"10", "100", "190", "280"};
                   }),
       "can.ldt:43:1: C angles begin at 10; at C 0 the intensities are interpolated\n"},
      {"C angles of stored planes only", planes_with(4, 15, [](auto& s) { s.c_deg.resize(7); }),
       "can.ldt:43:1: 7 C angles are listed instead of 24: those of the stored planes only\n"
       "hint: list the C angles of the full circle\n"},
      {"only stored planes counted",
       planes_with(4, 15,
                   [](auto& s) {
                     s.line(4) = "7";
                     s.c_deg.resize(7);
                   }),
       "can.ldt:4:1: number of C planes counts the stored planes instead of those of the full circle\n"},
      {"the second quadrant only",
       planes_with(4, 15,
                   [](auto& s) {
                     s.line(4) = "7";
                     s.c_deg = {"90", "105", "120", "135", "150", "165", "180"};
                   }),
       "can.ldt:4:1: number of C planes counts the stored planes instead of those of the full circle\n"
       "can.ldt:43:1: stored planes run from C 90 to C 180, and are mirrored into the rest\n"},
      {"C list closed",
       planes_with(4, 15,
                   [](auto& s) {
                     s.line(4) = "25";
                     s.c_deg.push_back("360");
                   }),
       "can.ldt:67:1: C angles end at 360, which is the first plane again; the first is used\n"
       "hint: end the list before 360\n"},
      {"C planes closed by another",
       planes_with(0, 90,
                   [](auto& s) {
                     s.line(4) = "5";
                     s.c_deg.push_back("360");
                     s.intensities.insert(s.intensities.end(), {"300", "242", "0"});
                   }),
       "can.ldt:47:1: C angles end at 360, which is the first plane again; the first is used\n"
       "hint: end the list before 360\n"
       "can.ldt:63:1: intensities at C 0 and C 360 differ by up to 10.0 % of the peak; those at C 0 are used\n"},
      {"all planes stored", planes_with(0, 15, [](auto& s) { s.line(3) = "4"; }),
       "can.ldt:3:1: all C planes are stored in spite of symmetry indicator 4; they are read as they stand\n"
       "hint: write symmetry indicator 0\n"},
      {"all planes stored, without the symmetry",
       planes_with(0, 90,
                   [](auto& s) {
                     s.line(3) = "2";
                     s.intensities[4] = "197";
                   }),
       "can.ldt:3:1: all C planes are stored in spite of symmetry indicator 2; they are read as they stand, and differ "
       "from that symmetry by up to 5.0 % of the peak\n"
       "hint: write symmetry indicator 0\n"},
  };
}

std::vector<Case> table_cases() {
  const auto with = [](auto change) { return eulumdat_with(change); };
  return {
      {"lines after the table", with([](auto& s) { s.rest = "\r\n1\r\n\r\nsome text\r\n"; }),
       "can.ldt:59:1: lines after the intensity table, ignored: 2\n"},
      {"text behind the last number", with([](auto& s) { s.intensities[6] = "0 # last"; }),
       "can.ldt:57:3: lines after the intensity table, ignored: 1\n"},
      {"units", with([](auto& s) {
         s.gamma_deg[1] = "15deg";
         s.intensities[6] = "0 cd";
       }),
       "can.ldt:45:1: text after a number is not used (2 times)\n"
       "hint: write the number alone\n"},
      {"several on a line", with([](auto& s) {
         s.gamma_deg = {"0 15 30", "45 60 75 90"};
       }),
       "can.ldt:44:3: more than one number on a line (5 times)\n"
       "hint: write each number on a line of its own\n"},
      {"blank lines", with([](auto& s) { s.intensities[2] += "\r\n\r\n"; }),
       "can.ldt:56:1: blank lines between numbers, passed over\n"},
      {"slightly negative", with([](auto& s) { s.intensities[6] = "-1.5"; }),
       "can.ldt:57:1: intensity -1.5 and any other below 0 are read as 0\n"},
      {"no light", with([](auto& s) { s.intensities.assign(7, "0"); }),
       "can.ldt:51:1: all intensities are 0: there is no light\n"},
      {"poles differ", planes_with(0, 90, [](auto& s) { s.intensities[0] = "310"; }),
       "can.ldt:47:1: candela values at vertical angle 0 differ between planes by up to 3.2 % of the peak; their mean "
       "is used\n"
       "hint: all planes meet there and have the same value\n"},
  };
}

/// What the header says of the flux. The sample's table adds up to 99.4 % of the lamp flux: chords of the cosine every
/// 15 degrees lie (15 deg)^2 / 12 below it on average.
std::vector<Case> flux_cases() {
  const auto with = [](auto change) { return eulumdat_with(change); };
  return {
      {"light output ratio 0", with([](auto& s) { s.line(23) = "0"; }),
       "can.ldt:23:1: table gives a light output ratio of 99.4 %, the header says 0.0 %; the table is used\n"},
      {"another light output ratio", with([](auto& s) { s.line(23) = "80"; }),
       "can.ldt:23:1: table gives a light output ratio of 99.4 %, the header says 80.0 %; the table is used\n"},
      {"near enough", with([](auto& s) { s.line(23) = "98"; }), ""},
      {"a fraction", with([](auto& s) { s.line(23) = "1"; }),
       "can.ldt:23:1: light output ratio 1 is a fraction; the table, which is used, gives 99.4 %\n"
       "hint: write it in per cent\n"},
      {"downward flux fraction", with([](auto& s) { s.line(22) = "50"; }),
       "can.ldt:22:1: table sends 100.0 % of the flux down, the header says 50.0 %; the table is used\n"},
      {"candelas",
       with([](auto& s) { s.intensities = {"1000", "965.926", "866.025", "707.107", "500", "258.819", "0"}; }),
       "can.ldt:23:1: table gives a light output ratio of 312.4 %, the header says 100.0 %; intensities look like cd, "
       "not cd per 1000 lm\n"
       "hint: divide them by the lamp flux in thousands of lumens\n"},
      {"factor contained", with([](auto& s) { s.line(24) = "0.8"; }),
       "can.ldt:24:1: table gives a light output ratio of 79.5 %, the header says 100.0 %; the conversion factor 0.8 "
       "may "
       "be contained in the intensities already; it is applied\n"
       "hint: write 1 if it is\n"},
      {"flux of one lamp", with([](auto& s) {
         s.lamps[0] = "2";
         s.line(23) = "50";
       }),
       "can.ldt:29:1: table gives a light output ratio of 99.4 %, the header says 50.0 %; the flux may be that of one "
       "lamp; it is used as that of all 2\n"
       "hint: write the flux of all lamps of the set together\n"},
  };
}

void check(const std::vector<Case>& cases) {
  for (const auto& [name, bytes, expected] : cases) {
    CAPTURE(name);
    CHECK(eulumdat_messages(bytes) == expected);
  }
}

}  // namespace

TEST_CASE("EULUMDAT: deviations of the header are put right and told", "[photometry][exact]") { check(header_cases()); }

TEST_CASE("EULUMDAT: deviations of the lamp sets are put right and told", "[photometry][exact]") {
  check(lamp_cases());
}

TEST_CASE("EULUMDAT: deviations of the angle lists are put right and told", "[photometry][exact]") {
  check(angle_cases());
}

TEST_CASE("EULUMDAT: deviations of the table are put right and told", "[photometry][exact]") { check(table_cases()); }

TEST_CASE("EULUMDAT: flux figures that the table does not bear out are told", "[photometry][formula]") {
  check(flux_cases());
}
