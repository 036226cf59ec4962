#include <catch2/catch.hpp>

#include "lm63_sample.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

std::string repeated(std::string_view text, int times) {
  std::string whole;
  for (int i = 0; i < times; ++i) whole += text;
  return whole;
}

struct Case {
  std::string name;
  std::string bytes;
  std::string errors;
};

std::vector<Case> cases() {
  return {
      {"empty file", "", "can.ies: file is empty\n"},
      {"nothing but blanks and the end mark of DOS", " \r\n\x1A", "can.ies: file is empty\n"},
      {"UTF-16 with its mark", std::string("\xFF\xFEI\0E\0S\0", 8),
       "can.ies: file is UTF-16\n"
       "hint: save it as plain ASCII text\n"},
      {"UTF-16 without a mark", std::string("I\0E\0S\0N\0A\0", 10),
       "can.ies: file is UTF-16\n"
       "hint: save it as plain ASCII text\n"},
      {"zero byte", "IESNA:LM-63-2002\n[TEST]" + std::string(1, '\0') + "x\nTILT=NONE\n",
       "can.ies: not a text file: zero byte at offset 23\n"},
      {"no TILT line", "IESNA:LM-63-2002\n[TEST] 1\n1 -1 1 3 1 1 2 0 0 0\n",
       "can.ies: no TILT= line\n"
       "hint: not an LM-63 file, or a damaged one\n"},
      {"too many lines", repeated("text\n", 10001),
       "can.ies: no TILT= line in the first 10000 lines\n"
       "hint: not an LM-63 file, or a damaged one\n"},
      {"too large", std::string((std::size_t{64} << 20) + 1, ' '), "can.ies: file is larger than 64 MiB\n"},
      {"EULUMDAT", "Some maker\n1\n4\n24\n15\n19\n5\nreport\nname\n",
       "can.ies: no TILT= line\n"
       "hint: not an LM-63 file, or a damaged one\n"},
      {"tilt empty", with([](Sample& s) { s.tilt = "TILT=\n"; }),
       "can.ies:6:1: TILT= names nothing\n"
       "hint: write TILT=NONE or TILT=INCLUDE\n"},
      {"tilt count", with([](Sample& s) { s.tilt = "TILT=INCLUDE\n1 0\n"; }),
       "can.ies:7:3: tilt data damaged: number of tilt angles 0 is not an integer from 1 to 10000\n"},
      {"tilt count fraction", with([](Sample& s) { s.tilt = "TILT=INCLUDE\n1 2.5\n"; }),
       "can.ies:7:3: tilt data damaged: number of tilt angles 2.5 is not an integer from 1 to 10000\n"},
      {"tilt unsorted", with([](Sample& s) { s.tilt = "TILT=INCLUDE\n1 3\n0 90 45\n1 1 1\n"; }),
       "can.ies:8:6: tilt data damaged: angle 45 comes after 90\n"},
      {"tilt factor", with([](Sample& s) { s.tilt = "TILT=INCLUDE\n1 2\n0 90\n1 -1\n"; }),
       "can.ies:9:3: tilt data damaged: factor -1 is outside 0 to 10\n"},
      {"tilt short", with([](Sample& s) { s.tilt = "TILT=INCLUDE\n1 50\n0 90\n1 1\n"; }),
       "can.ies:14:11: expected 50 tilt angles, the file ends after 24\n"
       "hint: check the declared numbers of angles, and that the file is complete\n"},
      {"word", with([](Sample& s) { s.vertical = "0 xyz 90"; }),
       "can.ies:9:3: \"xyz\" is not a number (reading vertical angles)\n"},
      {"word long", with([](Sample& s) { s.vertical = "0 " + std::string(60, 'x') + " 90"; }),
       "can.ies:9:3: \"xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx...\" is not a number (reading vertical angles)\n"},
      {"number and letters", with([](Sample& s) { s.candela = "1000 12abc 0"; }),
       "can.ies:11:6: \"12abc\" is not a number (reading candela values)\n"},
      {"nan", with([](Sample& s) { s.candela = "1000 NaN 0"; }),
       "can.ies:11:6: \"NaN\" is not a number (reading candela values)\n"},
      {"inf", with([](Sample& s) { s.candela = "1000 -inf 0"; }),
       "can.ies:11:6: \"-inf\" is not a number (reading candela values)\n"},
      {"spreadsheet error", with([](Sample& s) { s.candela = "1000 1.#IND 0"; }),
       "can.ies:11:6: \"1.#IND\" is not a number (reading candela values)\n"},
      {"stars", with([](Sample& s) { s.candela = "1000 ***** 0"; }),
       "can.ies:11:6: \"*****\" is not a number (reading candela values)\n"},
      {"overflow", with([](Sample& s) { s.candela = "1000 1e400 0"; }),
       "can.ies:11:6: \"1e400\" is out of range (reading candela values)\n"},
      {"too bright", with([](Sample& s) { s.candela = "1000 2e9 0"; }),
       "can.ies:11:6: candela value 2000000000 is out of range\n"},
      {"latin-1 in a number", with([](Sample& s) { s.candela = "1000 7\xB2 0"; }),
       "can.ies:11:6: \"7²\" is not a number (reading candela values)\n"},
      {"commas that fit neither way", with([](Sample& s) { s.candela = "1,000 700 0 5"; }),
       "can.ies:11:2: commas between digits, and more numbers than declared\n"
       "hint: a comma separates numbers: write decimal points, and thousands without a separator\n"},
      {"thousands", with([](Sample& s) { s.candela = "1,000.5 700.0 0"; }),
       "can.ies:11:2: commas between digits, and more numbers than declared\n"
       "hint: a comma separates numbers: write decimal points, and thousands without a separator\n"},
      {"commas and an error", with([](Sample& s) {
         s.lamps = "1 -1 1,5";
         s.candela = "1,000 x";
       }),
       "can.ies:7:7: commas between digits, read as separators\n"
       "hint: a comma separates numbers: write decimal points, and thousands without a separator\n"
       "can.ies:11:7: \"x\" is not a number (reading horizontal angles)\n"},
      {"short candelas", with([](Sample& s) { s.candela = "1000 700"; }),
       "can.ies:11:9: expected 3 x 1 = 3 candela values, the file ends after 2\n"
       "hint: check the declared numbers of angles, and that the file is complete\n"},
      {"short header", with([](Sample& s) {
         s.counts = "";
         s.factors = "";
         s.vertical = "";
         s.horizontal = "";
         s.candela = "";
       }),
       "can.ies:7:18: expected 13 numbers before the angles, the file ends after 8\n"
       "hint: check the declared numbers of angles, and that the file is complete\n"},
      {"short angles", with([](Sample& s) {
         s.counts = "9 1";
         s.horizontal = "";
         s.candela = "";
       }),
       "can.ies:9:8: expected 9 vertical angles, the file ends after 3\n"
       "hint: check the declared numbers of angles, and that the file is complete\n"},
      {"tilt block after TILT=NONE", with([](Sample& s) { s.tilt += "1\n2\n0 90\n1 1\n"; }),
       "can.ies:9:1: candela multiplier 0 is not positive\n"
       "hint: write 1 where the candela values stand as they are\n"},
      {"lamps fraction", with([](Sample& s) { s.lamps = "1.5 -1 1"; }),
       "can.ies:7:1: number of lamps 1.5 is not an integer\n"},
      {"multiplier", with([](Sample& s) { s.lamps = "1 -1 0"; }),
       "can.ies:7:6: candela multiplier 0 is not positive\n"
       "hint: write 1 where the candela values stand as they are\n"},
      {"count fraction", with([](Sample& s) { s.counts = "3.5 1"; }),
       "can.ies:7:8: number of vertical angles 3.5 is not an integer\n"},
      {"one vertical", with([](Sample& s) { s.counts = "1 1"; }),
       "can.ies:7:8: number of vertical angles 1 is below 2\n"},
      {"negative counts", with([](Sample& s) { s.counts = "-3 0"; }),
       "can.ies:7:8: number of vertical angles -3 is below 2\n"
       "can.ies:7:11: number of horizontal angles 0 is below 1\n"},
      {"many angles", with([](Sample& s) { s.counts = "20000 20000"; }),
       "can.ies:7:8: number of vertical angles 20000 is above 10000\n"
       "can.ies:7:14: number of horizontal angles 20000 is above 10000\n"},
      {"large table", with([](Sample& s) { s.counts = "5000 5000"; }),
       "can.ies:7:13: number of horizontal angles 5000 makes a table of 5000 x 5000 candela values, above the limit of "
       "4000000\n"},
      {"one vertical angle, repeated", with([](Sample& s) {
         s.vertical = "45 45 45";
         s.candela = "7 7 7";
       }),
       "can.ies:9:1: the only vertical angle is 45\n"
       "hint: at least two different ones are needed\n"},
      {"type B of one plane", with([](Sample& s) { s.type_and_units = "2 2"; }),
       "can.ies:10:1: types A and B need at least two horizontal angles\n"
       "hint: one plane that stands for all is of type C, code 1\n"},
      {"type A beyond its range", with([](Sample& s) {
         s.type_and_units = "3 2";
         s.counts = "3 2";
         s.vertical = "0 45 120";
         s.horizontal = "0 90";
         s.candela = "3 2 1 3 2 1";
       }),
       "can.ies:9:6: vertical angle 120 is outside -90 to 90\n"
       "hint: types A and B count both ways from the beam's axis\n"},
      {"type 4", with([](Sample& s) { s.type_and_units = "4 2"; }),
       "can.ies:7:12: photometric type 4 is unknown\n"
       "hint: the codes are 1 for type C, 2 for B, 3 for A\n"},
      {"units of an opening", with([](Sample& s) {
         s.type_and_units = "1 3";
         s.opening = "0.1 0.1 0";
       }),
       "can.ies:7:14: units code 3 is unknown\n"
       "hint: the codes are 1 for feet, 2 for metres\n"},
      {"ballast factor", with([](Sample& s) { s.factors = "-1 1 10"; }),
       "can.ies:8:1: ballast factor -1 is outside 0 to 10\n"},
      {"large ballast factor", with([](Sample& s) { s.factors = "11 1 10"; }),
       "can.ies:8:1: ballast factor 11 is outside 0 to 10\n"},
      {"ballast-lamp factor", with([](Sample& s) {
         s.version = "IESNA91\n";
         s.factors = "1 20 10";
       }),
       "can.ies:8:3: ballast-lamp photometric factor 20 is outside 0 to 10\n"},
      {"out of range", with([](Sample& s) { s.lamps = "1 1e12 1e10"; }),
       "can.ies:7:3: lumens per lamp 1000000000000 is out of range\n"
       "can.ies:7:8: candela multiplier 10000000000 is out of range\n"},
      {"several at once", with([](Sample& s) {
         s.lamps = "1 -1 -2";
         s.type_and_units = "7 2";
         s.factors = "-1 1 10";
       }),
       "can.ies:7:6: candela multiplier -2 is not positive\n"
       "hint: write 1 where the candela values stand as they are\n"
       "can.ies:7:13: photometric type 7 is unknown\n"
       "hint: the codes are 1 for type C, 2 for B, 3 for A\n"
       "can.ies:8:1: ballast factor -1 is outside 0 to 10\n"},
      {"negative", with([](Sample& s) { s.candela = "1000 -20 0"; }),
       "can.ies:11:6: candela value -20 at vertical angle 45, horizontal angle 0 is negative\n"},
      {"all negative", with([](Sample& s) { s.candela = "-1 -1 -1"; }),
       "can.ies:11:1: candela value -1 at vertical angle 0, horizontal angle 0 is negative\n"},
      {"unsorted", with([](Sample& s) { s.vertical = "0 45 30"; }),
       "can.ies:9:6: vertical angles are not ascending: 30 comes after 45\n"
       "hint: a number may be missing or too many before this one\n"},
      {"repeated different", with([](Sample& s) {
         s.counts = "4 1";
         s.vertical = "0 45 45 90";
         s.candela = "1000 700 701 0";
       }),
       "can.ies:9:6: vertical angle 45 comes twice with different candela values\n"},
      {"below 0", with([](Sample& s) { s.vertical = "-90 0 90"; }),
       "can.ies:9:1: vertical angle -90 is outside 0 to 180\n"
       "hint: type C counts from 0 straight down to 180 straight up\n"},
      {"above 180", with([](Sample& s) { s.vertical = "0 90 190"; }),
       "can.ies:9:6: vertical angle 190 is outside 0 to 180\n"
       "hint: type C counts from 0 straight down to 180 straight up\n"},
      {"0 to 85", with([](Sample& s) {
         s.counts = "3 3";
         s.horizontal = "0 45 85";
         s.candela = "9 5 0 9 6 0 9 7 0";
       }),
       "can.ies:10:6: horizontal angles run from 0 to 85\n"
       "hint: they must begin at 0 and end at 0, 90, 180 or 360\n"},
      {"gap", with([](Sample& s) {
         s.counts = "3 5";
         s.horizontal = "0 90 180 190 200";
         s.candela = "9 5 0 9 6 0 9 7 0 9 7 0 9 7 0";
       }),
       "can.ies:10:14: no data between the horizontal angles 200 and 360\n"
       "hint: they must begin at 0 and end at 0, 90, 180 or 360\n"},
      {"horizontal unsorted", with([](Sample& s) {
         s.counts = "3 3";
         s.horizontal = "0 90 45";
         s.candela = "9 5 0 9 6 0 9 7 0";
       }),
       "can.ies:10:6: horizontal angles are not ascending: 45 comes after 90\n"
       "hint: a number may be missing or too many before this one\n"},
      {"horizontal repeated", with([](Sample& s) {
         s.counts = "3 3";
         s.horizontal = "0 90 90";
         s.candela = "9 5 0 9 6 0 9 7 0";
       }),
       "can.ies:10:6: horizontal angle 90 comes twice with different candela values\n"},
  };
}

}  // namespace

TEST_CASE("LM-63: what cannot be used is refused with its place and what to write instead", "[photometry][exact]") {
  for (const auto& [name, bytes, expected] : cases()) {
    CAPTURE(name);
    CHECK(messages_of(bytes) == "refused:\n" + expected);
  }
}
