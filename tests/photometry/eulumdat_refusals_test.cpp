#include <catch2/catch.hpp>

#include "eulumdat_sample.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

struct Case {
  std::string name;
  std::string bytes;
  std::string errors;
};

std::vector<Case> header_cases() {
  const auto with = [](auto change) { return eulumdat_with(change); };
  const std::string shifted = "hint: a line may be missing or too many above this one\n";
  return {
      {"empty file", "", "can.ldt: file is empty\n"},
      {"UTF-16", std::string("\xFF\xFES\0a\0", 6), "can.ldt: file is UTF-16\nhint: save it as plain ASCII text\n"},
      {"zero byte", "Sample\n1" + std::string(1, '\0') + "\n1\n1\n",
       "can.ldt: not a text file: zero byte at offset 8\n"},
      {"too large", std::string((std::size_t{64} << 20) + 1, ' '), "can.ldt: file is larger than 64 MiB\n"},
      {"three lines", "Sample\n1\n1\n",
       "can.ldt:3:1: file ends before line 4, the number of C planes\n"
       "hint: get a complete copy of the file\n"},
      {"twelve lines", "Sample\n1\n1\n1\n0\n7\n15\n\n\n\n\nx\n",
       "can.ldt:12:1: file ends before line 13, the length of the luminaire\n"
       "hint: get a complete copy of the file\n"},
      {"line too many", with([](auto& s) { s.header.insert(s.header.begin(), "more"); }),
       "can.ldt:2:1: line 2 should hold the type indicator, found \"Sample\"; the header seems shifted\n" + shifted},
      {"line missing", planes_with(4, 15, [](auto& s) { s.header.erase(s.header.begin()); }),
       "can.ldt:3:1: symmetry indicator 24 is unknown\n"
       "hint: the indicators are 0 to 4; where this is another number of the header, a line is missing or too many "
       "above\n"},
      {"symmetry is text", with([](auto& s) { s.line(3) = "none"; }),
       "can.ldt:3:1: line 3 should hold the symmetry indicator, found \"none\"; the header seems shifted\n" + shifted},
      {"symmetry is missing", with([](auto& s) { s.line(3) = ""; }),
       "can.ldt:3:1: line 3 should hold the symmetry indicator, found nothing; the header seems shifted\n" + shifted},
      {"counts are missing", with([](auto& s) { s.line(4) = s.line(6) = ""; }),
       "can.ldt:4:1: line 4 should hold the number of C planes, found nothing; the header seems shifted\n" + shifted +
           "can.ldt:6:1: line 6 should hold the number of vertical angles, found nothing; the header seems shifted\n" +
           shifted},
      {"symmetry 5", with([](auto& s) { s.line(3) = "5"; }),
       "can.ldt:3:1: symmetry indicator 5 is unknown\n"
       "hint: the indicators are 0 to 4; where this is another number of the header, a line is missing or too many "
       "above\n"},
      {"unit after a count", with([](auto& s) { s.line(4) = "1 plane"; }),
       "can.ldt:4:1: line 4 should hold the number of C planes, found \"1 plane\"; the header seems shifted\n" +
           shifted},
      {"counts with fractions", with([](auto& s) {
         s.line(4) = "1.5";
         s.line(6) = "6,5";
       }),
       "can.ldt:4:1: number of C planes 1.5 is not an integer\n"
       "can.ldt:6:1: number of vertical angles 6.5 is not an integer\n"},
      {"counts too small", with([](auto& s) {
         s.line(4) = "0";
         s.line(6) = "1";
       }),
       "can.ldt:4:1: number of C planes 0 is below 1\n"
       "can.ldt:6:1: number of vertical angles 1 is below 2\n"},
      {"several at once", with([](auto& s) {
         s.line(7) = "1,234.5";
         s.line(13) = "wide";
         s.line(16) = "NaN";
         s.line(17) = "1e300";
         s.line(22) = "1.#INF";
         s.line(24) = "-1";
       }),
       "can.ldt:7:1: distance between vertical angles \"1,234.5\" is not a number\n"
       "can.ldt:13:1: length of the luminaire \"wide\" is not a number\n"
       "can.ldt:16:1: length of the luminous area \"NaN\" is not a number\n"
       "can.ldt:17:1: width of the luminous area \"1e300\" is out of range\n"
       "can.ldt:22:1: downward flux fraction \"1.#INF\" is not a number\n"
       "can.ldt:24:1: conversion factor -1 is negative\n"},
      {"infinity as a unit", with([](auto& s) { s.line(5) = "1 inf"; }),
       "can.ldt:5:1: distance between C planes \"1 inf\" is not a number\n"},
  };
}

std::vector<Case> lamp_cases() {
  const auto with = [](auto change) { return eulumdat_with(change); };
  const std::string what_to_write =
      "hint: write 1, and after this line six more: number of lamps, type, flux in lm, colour, colour rendering, "
      "watts\n";
  const std::string flux =
      "hint: write the flux of all lamps of the set together, in lm; for absolute photometry, that of the "
      "luminaire\n";
  return {
      {"no lamp set", with([](auto& s) { s.line(26) = "0"; }),
       "can.ldt:26:1: number of lamp sets is 0: without a lamp flux, intensities per 1000 lm cannot be converted to "
       "candelas\n" +
           what_to_write},
      {"number of lamp sets missing", with([](auto& s) { s.line(26) = ""; }),
       "can.ldt:26:1: number of lamp sets is missing: without a lamp flux, intensities per 1000 lm cannot be "
       "converted to candelas\n" +
           what_to_write},
      {"negative", with([](auto& s) { s.line(26) = "-1"; }), "can.ldt:26:1: number of lamp sets -1 is implausible\n"},
      {"many", with([](auto& s) { s.line(26) = "21"; }), "can.ldt:26:1: number of lamp sets 21 is implausible\n"},
      {"fraction", with([](auto& s) { s.line(26) = "1.5"; }),
       "can.ldt:26:1: number of lamp sets 1.5 is not an integer\n"},
      {"text", with([](auto& s) { s.line(26) = "LED"; }),
       "can.ldt:26:1: number of lamp sets \"LED\" is not a number\n"},
      {"cut off", with([](auto& s) {
         s.line(26) = "2";
         s.direct_ratios.clear();
         s.c_deg.clear();
         s.gamma_deg.clear();
         s.intensities.clear();
       }),
       "can.ldt:32:3: file ends within the lines of the lamp sets, six for each of 2\n"
       "hint: get a complete copy of the file\n"},
      {"flux 0", with([](auto& s) { s.lamps[2] = "0"; }),
       "can.ldt:29:1: lamp flux 0 is not positive: intensities per 1000 lm cannot be converted to candelas\n" + flux},
      {"flux negative", with([](auto& s) { s.lamps[2] = "-2000"; }),
       "can.ldt:29:1: lamp flux -2000 is not positive: intensities per 1000 lm cannot be converted to candelas\n" +
           flux},
      {"flux missing", with([](auto& s) { s.lamps[2] = ""; }), "can.ldt:29:1: lamp flux \"\" is not a number\n"},
      {"lamps, flux and watts", with([](auto& s) {
         s.lamps[0] = "1.5";
         s.lamps[2] = "2e9";
         s.lamps[5] = "ten";
       }),
       "can.ldt:27:1: number of lamps 1.5 is not an integer\n"
       "can.ldt:29:1: lamp flux \"2e9\" is out of range\n"
       "can.ldt:32:1: watts of the lamp set, \"ten\" is not a number\n"},
  };
}

std::vector<Case> table_cases() {
  const auto with = [](auto change) { return eulumdat_with(change); };
  const std::string incomplete = "hint: check the declared numbers of angles, and that the file is complete\n";
  return {
      {"odd number of planes", planes_with(2, 15, [](auto& s) { s.line(4) = "23"; }),
       "can.ldt:4:1: number of C planes 23 does not fit symmetry indicator 2\n"
       "hint: write an even number\n"},
      {"no multiple of 4", planes_with(4, 15, [](auto& s) { s.line(4) = "22"; }),
       "can.ldt:4:1: number of C planes 22 does not fit symmetry indicator 4\n"
       "hint: write a multiple of 4\n"},
      {"another symmetry", planes_with(4, 15, [](auto& s) { s.line(3) = "2"; }),
       "can.ldt:3:1: table has 21 intensities, symmetry indicator 2 needs 39\n"
       "hint: symmetry indicator 4 would fit\n"},
      {"another symmetry, more", planes_with(2, 15, [](auto& s) { s.line(3) = "4"; }),
       "can.ldt:3:1: table has 39 intensities, symmetry indicator 4 needs 21\n"
       "hint: symmetry indicator 2 would fit\n"},
      {"symmetry left out", planes_with(4, 15, [](auto& s) { s.line(3) = "0"; }),
       "can.ldt:3:1: table has 21 intensities, symmetry indicator 0 needs 72\n"
       "hint: symmetry indicator 4 would fit\n"},
      {"short table", with([](auto& s) { s.intensities.pop_back(); }),
       "can.ldt:56:7: expected 1 x 7 = 7 intensities, the file ends after 6\n" + incomplete},
      {"no table", with([](auto& s) { s.intensities.clear(); }),
       "can.ldt:50:3: expected 1 x 7 = 7 intensities, the file ends after 0\n" + incomplete},
      {"short vertical angles", with([](auto& s) {
         s.intensities.clear();
         s.gamma_deg.resize(4);
       }),
       "can.ldt:47:3: expected 7 vertical angles, the file ends after 4\n" + incomplete},
      {"short C angles",
       planes_with(4, 15,
                   [](auto& s) {
                     s.c_deg.resize(5);
                     s.gamma_deg.clear();
                     s.intensities.clear();
                   }),
       "can.ldt:47:3: expected 24 C angles, the file ends after 5\n" + incomplete},
      {"word among the C angles", planes_with(4, 15, [](auto& s) { s.c_deg[2] = "C30"; }),
       "can.ldt:45:1: \"C30\" is not a number (reading C angles)\n"},
      {"word among the vertical angles", with([](auto& s) { s.gamma_deg[2] = "1,234.5"; }),
       "can.ldt:46:1: \"1,234.5\" is not a number (reading vertical angles)\n"},
      {"not a number", with([](auto& s) { s.intensities[3] = "NaN"; }),
       "can.ldt:54:1: \"NaN\" is not a number (reading intensities)\n"},
      {"number, then none", with([](auto& s) { s.intensities[3] = "1 inf"; }),
       "can.ldt:54:3: \"inf\" is not a number (reading intensities)\n"},
      {"separators of thousands", with([](auto& s) { s.intensities[0] = "1,234,567"; }),
       "can.ldt:51:1: \"1,234,567\" is not a number (reading intensities)\n"},
      {"beyond doubles", with([](auto& s) { s.intensities[0] = "1e400"; }),
       "can.ldt:51:1: \"1e400\" is not a number (reading intensities)\n"},
      {"too bright", with([](auto& s) { s.intensities[0] = "5e8"; }),
       "can.ldt:51:1: intensity 500000000 is out of range\n"},
      {"far too bright", with([](auto& s) { s.intensities[0] = "1e308"; }),
       "can.ldt:51:1: intensity 1e+308 is out of range\n"},
      {"negative", with([](auto& s) { s.intensities[3] = "-2"; }),
       "can.ldt:54:1: intensity -2 at C 0, vertical angle 45 is negative\n"},
      {"negative in a plane", planes_with(3, 90, [](auto& s) { s.intensities[1] = "-2"; }),
       "can.ldt:51:1: intensity -2 at C 270, vertical angle 45 is negative\n"},
      {"all negative", with([](auto& s) { s.intensities.assign(7, "-1"); }),
       "can.ldt:51:1: intensity -1 at C 0, vertical angle 0 is negative\n"},
      {"vertical unsorted", with([](auto& s) { s.gamma_deg[3] = "20"; }),
       "can.ldt:47:1: vertical angles are not ascending: 20 comes after 30\n"
       "hint: a number may be missing or too many before this one\n"},
      {"vertical twice", with([](auto& s) { s.gamma_deg[3] = "30"; }),
       "can.ldt:47:1: vertical angle 30 comes twice with different candela values\n"},
      {"vertical all the same", with([](auto& s) {
         s.gamma_deg.assign(7, "30");
         s.intensities.assign(7, "9");
       }),
       "can.ldt:44:1: at least two vertical angles are needed\n"},
      {"vertical above 180", with([](auto& s) { s.gamma_deg[6] = "190"; }),
       "can.ldt:50:1: vertical angle 190 is outside 0 to 180\n"
       "hint: they count from 0 straight down to 180 straight up\n"},
      {"vertical below 0", with([](auto& s) { s.gamma_deg[0] = "-5"; }),
       "can.ldt:44:1: vertical angle -5 is outside 0 to 180\n"
       "hint: they count from 0 straight down to 180 straight up\n"},
      {"C unsorted", planes_with(4, 15, [](auto& s) { s.c_deg[2] = "10"; }),
       "can.ldt:45:1: C angles are not ascending: 10 comes after 15\n"
       "hint: a number may be missing or too many before this one\n"},
      {"C twice", planes_with(0, 90, [](auto& s) { s.c_deg[2] = "90"; }),
       "can.ldt:45:1: C angles are not ascending: 90 comes after 90\n"
       "hint: a number may be missing or too many before this one\n"},
      {"C above 360", planes_with(0, 90, [](auto& s) { s.c_deg[3] = "370"; }),
       "can.ldt:46:1: C angle 370 is outside 0 to 360\n"},
      {"C below 0", planes_with(0, 90, [](auto& s) { s.c_deg[0] = "-90"; }),
       "can.ldt:43:1: C angle -90 is outside 0 to 360\n"},
      {"C 180 not where it should be", planes_with(2, 90, [](auto& s) { s.c_deg[2] = "170"; }),
       "can.ldt:43:1: stored planes run from C 0 to C 170, symmetry indicator 2 needs 0 to 180\n"
       "hint: check the C angles, their number, and the symmetry indicator\n"},
      {"C 270 not where it should be", planes_with(3, 90, [](auto& s) { s.c_deg[3] = "275"; }),
       "can.ldt:43:1: stored planes run from C 275 to C 90, symmetry indicator 3 needs 270 to 90\n"
       "hint: check the C angles, their number, and the symmetry indicator\n"},
      {"C 90 not where it should be", planes_with(4, 90, [](auto& s) { s.c_deg[1] = "80"; }),
       "can.ldt:43:1: stored planes run from C 0 to C 80, symmetry indicator 4 needs 0 to 90\n"
       "hint: check the C angles, their number, and the symmetry indicator\n"},
      {"half a circle without symmetry",
       planes_with(0, 15,
                   [](auto& s) {
                     s.line(4) = "13";
                     s.c_deg.resize(13);
                     s.intensities.resize(39);
                   }),
       "can.ldt:55:1: no planes between C 180 and C 360\n"
       "hint: where the planes are to be mirrored, write symmetry indicator 2, 3 or 4\n"},
  };
}

void check(const std::vector<Case>& cases) {
  for (const auto& [name, bytes, expected] : cases) {
    CAPTURE(name);
    CHECK(eulumdat_messages(bytes) == "refused:\n" + expected);
  }
}

}  // namespace

TEST_CASE("EULUMDAT: a header that cannot be used is refused with its place and what to write instead",
          "[photometry][exact]") {
  check(header_cases());
}

TEST_CASE("EULUMDAT: lamp sets that cannot be used are refused with their place and what to write instead",
          "[photometry][exact]") {
  check(lamp_cases());
}

TEST_CASE("EULUMDAT: a table that cannot be used is refused with its place and what to write instead",
          "[photometry][exact]") {
  check(table_cases());
}

TEST_CASE("EULUMDAT: a lamp set that the file does not have is refused", "[photometry][exact]") {
  CHECK(eulumdat_messages(EulumdatSample{}.text(), 2) ==
        "refused:\n"
        "can.ldt:26:1: there is no lamp set 2: the file has 1\n"
        "hint: ask for lamp set 1\n");
  const auto two = eulumdat_with([](auto& s) {
    s.line(26) = "2";
    s.lamps = {"1", "1", "a", "b", "1000", "0", "3000", "4000", "80", "80", "10", "20"};
  });
  for (const int set : {0, -1, 3}) {
    CHECK(eulumdat_messages(two, set) ==
          "refused:\n"
          "can.ldt:26:1: there is no lamp set " +
              std::to_string(set) + ": the file has 2\nhint: ask for a lamp set from 1 to 2\n");
  }
  CHECK(eulumdat_messages(two, 2) ==
        "refused:\n"
        "can.ldt:32:1: lamp flux 0 is not positive: intensities per 1000 lm cannot be converted to candelas\n"
        "hint: write the flux of all lamps of the set together, in lm; for absolute photometry, that of the "
        "luminaire\n");
}
