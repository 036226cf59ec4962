#include <catch2/catch.hpp>

#include "lm63_sample.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

struct Case {
  std::string name;
  std::string bytes;
  std::string warnings;
};

std::vector<Case> cases() {
  return {
      {"no version line, keywords", with([](Sample& s) {
         s.version = "";
         s.factors = "1 1 10";
       }),
       "can.ies: no LM-63 version line; read as LM-63-1991\n"},
      {"no version line, free text", with([](Sample& s) {
         s.version = "";
         s.keywords = "a can\nits lamp\n";
       }),
       "can.ies: no LM-63 version line; read as LM-63-1986\n"},
      {"version in lower case with a blank", with([](Sample& s) { s.version = "iesna: LM-63-2002\n"; }),
       "can.ies:1:1: version line \"iesna: LM-63-2002\" is not written as in LM-63-2002\n"
       "hint: write IESNA:LM-63-2002\n"},
      {"unknown year", with([](Sample& s) { s.version = "IESNA:LM-63-2008\n"; }),
       "can.ies:1:1: unknown version line \"IESNA:LM-63-2008\", read as LM-63-2002\n"
       "hint: write IESNA:LM-63-2002\n"},
      {"1986 in a version line", with([](Sample& s) {
         s.version = "IESNA86\n";
         s.keywords = "a can\n";
       }),
       "can.ies:1:1: unknown version line \"IESNA86\", read as LM-63-1986\n"},
      {"version without a year", with([](Sample& s) { s.version = "IESNA:LM-63\n"; }),
       "can.ies:1:1: unknown version line \"IESNA:LM-63\", read as LM-63-2002\n"
       "hint: write IESNA:LM-63-2002\n"},
      {"text before the version line", with([](Sample& s) { s.version = "our can\nIESNA:LM-63-2002\n"; }),
       "can.ies:1:1: line without a keyword, kept as text\n"
       "hint: begin it with [OTHER]\n"
       "can.ies:2:1: text before the version line\n"},
      {"blank line before the version line", with([](Sample& s) { s.version = "\nIESNA:LM-63-2002\n"; }),
       "can.ies:2:1: blank lines before the version line\n"},
      {"required keywords missing", with([](Sample& s) { s.keywords = "[TEST] 1\n[MANUFAC] none\n"; }),
       "can.ies: no [TESTLAB], no [ISSUEDATE], which LM-63-2002 requires\n"},
      {"1991 requires two", with([](Sample& s) {
         s.version = "IESNA91\n";
         s.keywords = "[OTHER] x\n";
       }),
       "can.ies: no [TEST], no [MANUFAC], which LM-63-1991 requires\n"},
      {"1995 requires none", with([](Sample& s) {
         s.version = "IESNA:LM-63-1995\n";
         s.keywords = "[OTHER] x\n";
       }),
       ""},
      {"unclosed", with([](Sample& s) { s.keywords += "[LAMP none\n"; }),
       "can.ies:6:1: keyword without a closing bracket, kept as text\n"
       "hint: write ] after the keyword\n"},
      {"lower case", with([](Sample& s) { s.keywords += "[Lamp] none\n"; }),
       "can.ies:6:1: keyword in lower case\n"
       "hint: write keywords in upper case\n"},
      {"indented", with([](Sample& s) { s.keywords += "  [LAMP] none\n"; }),
       "can.ies:6:3: keyword does not begin its line\n"
       "hint: take out the blanks before [\n"},
      {"unknown", with([](Sample& s) { s.keywords += "[LAMPS] none\n[_LAMPS] none\n"; }),
       "can.ies:6:1: keyword unknown to LM-63, kept\n"
       "hint: begin the names of your own keywords with _\n"},
      {"leading MORE", with([](Sample& s) { s.keywords = "[MORE] x\n" + s.keywords; }),
       "can.ies:2:1: [MORE] follows no keyword, kept as text\n"},
      {"free text twice", with([](Sample& s) { s.keywords += "a line\nand another\n"; }),
       "can.ies:6:1: line without a keyword, kept as text (2 times)\n"
       "hint: begin it with [OTHER]\n"},
      {"repeated", with([](Sample& s) { s.keywords += "[TEST] 2\n[OTHER] a\n[OTHER] b\n"; }),
       "can.ies:6:1: keyword occurs again; all are kept, the first counts\n"},
      {"near field", with([](Sample& s) { s.keywords += "[NEARFIELD] 1 1 1\n"; }),
       "can.ies:6:1: [NEARFIELD] data are used as if they were far-field\n"},
      {"UTF-8", with([](Sample& s) { s.keywords += "[LAMP] 10 \xC2\xB5m\n"; }),
       "can.ies:6:1: text beyond ASCII, kept\n"},
      {"Latin-1", with([](Sample& s) { s.keywords += "[LAMP] 10 \xB5m\n"; }),
       "can.ies:6:1: text that is not UTF-8, read as Windows-1252\n"},
      {"tilt in lower case", with([](Sample& s) { s.tilt = "tilt = none\n"; }),
       "can.ies:6:1: \"tilt = none\" read as TILT=NONE\n"},
      {"tilt with a colon", with([](Sample& s) { s.tilt = "TILT:NONE\n"; }),
       "can.ies:6:1: \"TILT:NONE\" read as TILT=NONE\n"},
      {"tilt with trailing text", with([](Sample& s) { s.tilt = "TILT=NONE (LED)\n"; }),
       "can.ies:6:1: \"TILT=NONE (LED)\" read as TILT=NONE\n"},
      {"tilt data", with([](Sample& s) { s.tilt = "TILT=INCLUDE\n1 3\n0 45 90\n0.9 0.8 0.7\n"; }), ""},
      {"tilt file that is not there", with([](Sample& s) { s.tilt = "TILT=lamp.tlt\n"; }),
       "can.ies:6:6: tilt file \"lamp.tlt\" is not there; tilt factor 1 is used\n"
       "hint: put it beside the photometric file\n"},
      {"tilt file elsewhere", with([](Sample& s) { s.tilt = "TILT=..\\data\\lamp.tlt\n"; }),
       "can.ies:6:6: tilt file \"..\\data\\lamp.tlt\" is not a plain file name; tilt factor 1 is used\n"
       "hint: put it beside the photometric file and write its name alone\n"},
      {"tilt file of 2019", with([](Sample& s) {
         s.version = "IES:LM-63-2019\n";
         s.factors = "1 1.00001 10";
         s.tilt = "TILT=lamp.tlt\n";
       }),
       "can.ies:6:6: LM-63-2019 has no separate tilt files\n"
       "hint: write TILT=INCLUDE\n"
       "can.ies:6:6: tilt file \"lamp.tlt\" is not there; tilt factor 1 is used\n"
       "hint: put it beside the photometric file\n"},
      {"tilt geometry", with([](Sample& s) { s.tilt = "TILT=INCLUDE\n4 2\n0 90\n1 0.7\n"; }),
       "can.ies:7:1: lamp-to-luminaire geometry 4 is unknown, read as 1\n"
       "hint: write 1, 2 or 3\n"},
      {"no-break space", with([](Sample& s) {
         s.candela =
             "1000\xC2\xA0"
             "700\xA0"
             "0";
       }),
       "can.ies:11:5: no-break space among the numbers, read as a space (2 times)\n"},
      {"unicode minus", with([](Sample& s) {
         s.lamps =
             "1 \xE2\x88\x92"
             "1 1";
       }),
       "can.ies:7:3: minus sign outside ASCII among the numbers, read as '-'\n"},
      {"fortran exponent", with([](Sample& s) { s.candela = "1.0D+03 7d2 0"; }),
       "can.ies:11:4: exponent written with D, read as e (2 times)\n"},
      {"two commas", with([](Sample& s) { s.candela = "1000,,700,0"; }),
       "can.ies:11:6: two commas without a number between them, read as one\n"},
      {"decimal commas", with([](Sample& s) {
         s.candela = "1000,5 700 0";
         s.factors = "1,0 1,0 10";
       }),
       "can.ies:8:2: decimal commas, read as decimal points\n"
       "hint: write decimal points\n"},
      {"commas in a short table", with([](Sample& s) { s.candela = "1,000 7,x"; }),
       "can.ies:11:8: text after the candela values is ignored\n"},
      {"extra numbers", with([](Sample& s) { s.rest = "5\n"; }),
       "can.ies:12:1: extra numbers after the candela values, ignored: 1\n"},
      {"extra plane", with([](Sample& s) { s.rest = "1 2 3\n"; }),
       "can.ies:12:1: extra numbers after the candela values, ignored: 3\n"
       "hint: the declared number of horizontal angles may be too small\n"},
      {"extra text", with([](Sample& s) { s.rest = "the end\n"; }),
       "can.ies:12:1: text after the candela values is ignored\n"},
      {"second luminaire", with([](Sample& s) { s.rest = "[TEST] 2\nTILT=NONE\n1 -1 1\n"; }),
       "can.ies:12:1: file holds more than one luminaire; the first is read\n"},
      {"no lamps", with([](Sample& s) { s.lamps = "0 -1 1"; }),
       "can.ies:7:1: number of lamps 0 is below 1; 1 is used\n"},
      {"lumens", with([](Sample& s) { s.lamps = "1 0 1"; }),
       "can.ies:7:3: lumens per lamp 0 is read as -1, absolute photometry\n"
       "hint: write -1 for absolute photometry\n"},
      {"units of a point", with([](Sample& s) { s.type_and_units = "1 0"; }),
       "can.ies:7:14: units code 0 is unknown; it does not matter to an opening without size\n"},
      {"huge opening", with([](Sample& s) { s.opening = "60 0.5 0"; }),
       "can.ies:7:16: width of the luminous opening 60 metres is implausible\n"
       "hint: check the units code\n"},
      {"tiny opening in feet", with([](Sample& s) {
         s.type_and_units = "1 1";
         s.opening = "-0.001 -0.001 0";
       }),
       "can.ies:7:16: width of the luminous opening -0.001 feet is implausible\n"
       "hint: check the units code\n"
       "can.ies:7:23: length of the luminous opening -0.001 feet is implausible\n"
       "hint: check the units code\n"},
      {"box", with([](Sample& s) { s.opening = "0.1 0.1 0.1"; }),
       "can.ies:7:16: luminous opening is a box, of which only the outer sizes are kept\n"},
      {"undefined pattern", with([](Sample& s) { s.opening = "0 -0.1 0.1"; }),
       "can.ies:7:16: luminous opening is not one of the shapes of LM-63-2002; only its outer sizes are kept\n"},
      {"old disc", with([](Sample& s) { s.opening = "-0.1 0 0"; }),
       "can.ies:7:16: luminous opening is a disc in the manner of another LM-63 version\n"},
      {"no ballast factor", with([](Sample& s) { s.factors = "0 1 10"; }),
       "can.ies:8:1: ballast factor 0 is read as 1\n"},
      {"reserved number", with([](Sample& s) { s.factors = "1 0.9 10"; }),
       "can.ies:8:3: number after the ballast factor 0.9 is reserved in LM-63-2002 and not used\n"
       "hint: write 1\n"},
      {"no ballast-lamp factor", with([](Sample& s) {
         s.version = "IESNA91\n";
         s.factors = "1 0 10";
       }),
       "can.ies:8:3: ballast-lamp photometric factor 0 is read as 1\n"},
      {"generation type", with([](Sample& s) {
         s.version = "IES:LM-63-2019\n";
         s.factors = "1 1.5 10";
       }),
       "can.ies:8:3: file generation type 1.5 is not one of LM-63-2019; it is not used\n"},
      {"watts", with([](Sample& s) { s.factors = "1 1 -10"; }),
       "can.ies:8:5: input watts -10 is negative; the power counts as unknown\n"},
      {"slightly negative", with([](Sample& s) { s.candela = "1000 -2 -1"; }),
       "can.ies:11:6: candela value -2 and any other below 0 are read as 0\n"},
      {"dark", with([](Sample& s) { s.candela = "0 0 0"; }),
       "can.ies:11:1: all candela values are 0: there is no light\n"},
      {"bright relative", with([](Sample& s) { s.lamps = "1 1000 1"; }),
       "can.ies:7:3: candela values add up to 2945.9 lm, more than the rated 1000.0 lm of the lamps\n"},
      {"dim relative", with([](Sample& s) { s.lamps = "2 1e6 1"; }),
       "can.ies:7:3: candela values add up to 2945.9 lm, less than 1 % of the rated 2000000.0 lm of the lamps\n"},
      {"descending", with([](Sample& s) {
         s.vertical = "90 45 0";
         s.candela = "0 700 1000";
       }),
       "can.ies:9:1: vertical angles descend; they and their candelas are turned around\n"
       "hint: write angles in ascending order\n"},
      {"repeated same", with([](Sample& s) {
         s.counts = "4 1";
         s.vertical = "0 45 45 90";
         s.candela = "1000 700 700 0";
       }),
       "can.ies:9:6: vertical angle 45 comes twice with the same candela values; one is kept\n"},
      {"held", with([](Sample& s) {
         s.vertical = "20 40 60";
         s.candela = "3 2 1";
       }),
       "can.ies:9:1: vertical angles begin at 20; from there to 0 the intensity is held\n"
       "can.ies:9:7: vertical angles end at 60; from there to 90 the intensity counts as 0\n"},
      {"zero beyond", with([](Sample& s) {
         s.vertical = "30 40 50";
         s.candela = "3 2 1";
       }),
       "can.ies:9:1: vertical angles begin at 30; from there to 0 the intensity counts as 0\n"
       "can.ies:9:7: vertical angles end at 50; from there to 90 the intensity counts as 0\n"},
      {"single elsewhere", with([](Sample& s) {
         s.counts = "3 1";
         s.horizontal = "45";
         s.candela = "1000 700 0";
       }),
       "can.ies:10:1: the only horizontal angle is 45; its plane is used all around\n"},
      {"horizontal repeated same", with([](Sample& s) {
         s.counts = "3 3";
         s.horizontal = "0 90 90";
         s.candela = "9 5 0 9 6 0 9 6 0";
       }),
       "can.ies:10:6: horizontal angle 90 comes twice with the same candela values; one is kept\n"},
      {"horizontal descending", with([](Sample& s) {
         s.counts = "3 3";
         s.horizontal = "180 90 0";
         s.candela = "9 5 0 9 6 0 9 7 0";
       }),
       "can.ies:10:1: horizontal angles descend; they and their candelas are turned around\n"
       "hint: write angles in ascending order\n"},
      {"90 to 270 in 2002", with([](Sample& s) {
         s.counts = "3 3";
         s.horizontal = "90 180 270";
         s.candela = "9 5 0 9 6 0 9 7 0";
       }),
       "can.ies:10:1: horizontal angles run from 90 to 270; they are mirrored into the other half\n"},
      {"90 to 270 in 1995", with([](Sample& s) {
         s.version = "IESNA:LM-63-1995\n";
         s.factors = "1 1 10";
         s.counts = "3 3";
         s.horizontal = "90 180 270";
         s.candela = "9 5 0 9 6 0 9 7 0";
       }),
       ""},
      {"-90 to 90", with([](Sample& s) {
         s.counts = "3 3";
         s.horizontal = "-90 0 90";
         s.candela = "9 5 0 9 6 0 9 7 0";
       }),
       "can.ies:10:1: horizontal angles run from -90 to 90; they are mirrored into the other half\n"},
      {"90 to 180", with([](Sample& s) {
         s.counts = "3 3";
         s.horizontal = "90 135 180";
         s.candela = "9 5 0 9 6 0 9 7 0";
       }),
       "can.ies:10:1: horizontal angles run from 90 to 180; they are mirrored into the other quadrants\n"},
      {"-180 to 180", with([](Sample& s) {
         s.counts = "3 5";
         s.horizontal = "-180 -90 0 90 180";
         s.candela = "9 5 0 9 6 0 9 7 0 9 8 0 9 5 0";
       }),
       "can.ies:10:1: horizontal angles run from -180 to 180; they are turned into 0 to 360\n"},
      {"unclosed", with([](Sample& s) {
         s.counts = "3 4";
         s.horizontal = "0 90 180 270";
         s.candela = "9 5 0 9 6 0 9 7 0 9 8 0";
       }),
       "can.ies:10:1: horizontal angles run from 0 to 270; the first plane closes the circle\n"},
      {"open ends", with([](Sample& s) {
         s.counts = "3 5";
         s.horizontal = "0 90 180 270 360";
         s.candela = "9 5 0 9 6 0 9 7 0 9 8 0 9 6 0";
       }),
       "can.ies:10:14: candela values at horizontal angles 0 and 360 differ by up to 11.1 % of the peak; those of the "
       "first are used\n"},
      {"pole", with([](Sample& s) {
         s.counts = "3 2";
         s.horizontal = "0 90";
         s.candela = "9 5 0 8 5 0";
       }),
       "can.ies:9:1: candela values at vertical angle 0 differ between planes by up to 11.1 % of the peak; their mean "
       "is used\n"
       "hint: all planes meet there and have the same value\n"},
  };
}

}  // namespace

TEST_CASE("LM-63: what deviates from the standard is read with a warning", "[photometry][exact]") {
  for (const auto& [name, bytes, expected] : cases()) {
    CAPTURE(name);
    CHECK(messages_of(bytes) == expected);
  }
}
