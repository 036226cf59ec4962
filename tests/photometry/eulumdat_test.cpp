#include "evenlit/photometry/eulumdat.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "eulumdat_sample.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

std::string with_line_ends(const std::string& text, const std::string& end) {
  std::string other;
  for (const char c : text) {
    if (c == '\n') other += end;
    if (c != '\n' && c != '\r') other += c;
  }
  return other;
}

/// Three lamp sets: LED, fluorescent, one whose type is a number.
using Lines = std::vector<std::string>;
const std::vector<Lines> k_sets = {{"1", "LED", "2000", "3000", "80", "20"},
                                   {"2", "tube", "5000", "4000", "1B", "72.5"},
                                   {"3", "36", "6000", "warm", ">90", "0"}};

EulumdatSample with_sets(const std::vector<Lines>& sets, bool by_field) {
  EulumdatSample sample;
  sample.line(26) = std::to_string(sets.size());
  sample.lamps.clear();
  if (by_field) {
    for (std::size_t field = 0; field < 6; ++field)
      for (const auto& set : sets) sample.lamps.push_back(set[field]);
  } else {
    for (const auto& set : sets) sample.lamps.insert(sample.lamps.end(), set.begin(), set.end());
  }
  return sample;
}

}  // namespace

TEST_CASE("EULUMDAT: a rotational table of absolute photometry", "[photometry][formula]") {
  const std::string text = EulumdatSample{}.text();
  CHECK(eulumdat_messages(text).empty());
  const auto file = eulumdat_file(text);
  CHECK(file.format == "EULUMDAT");
  CHECK(file.lamp_sets ==
        std::vector<LampSet>{{.lamps = 1, .type = "LED", .colour = "4000", .rendering = "80", .watts = 10}});
  CHECK(file.lamp_set == 0);
  CHECK(is_rotational(file.distribution));
  CHECK(file.distribution.gamma_deg == std::vector<double>{0, 15, 30, 45, 60, 75, 90});
  // A Lambert emitter of 1000 cd. The table has 318.310 cd per 1000 lm for 1000 / pi, rounded by up to 0.0005, and the
  // flux is 3141.6 for 1000 pi lm: 0.0005 / 318.310 + 0.0074 / 3141.59 = 4e-6 of 1000 cd.
  for (Eigen::Index i = 0; i < 7; ++i) {
    const double gamma = file.distribution.gamma_deg[static_cast<std::size_t>(i)] * std::numbers::pi / 180;
    CHECK(file.distribution.candela(i) == Approx(1000 * std::cos(gamma)).epsilon(0).margin(0.004));
  }
}

TEST_CASE("EULUMDAT: a Lambert emitter of 318.310 cd per 1000 lm emits all the lamp's flux", "[photometry][formula]") {
  // Pi times the peak. At 1 degree the chord of the cosine lies up to (1 deg)^2 / 8 = 4e-5 below it.
  EulumdatSample sample;
  sample.line(6) = "91";
  sample.line(7) = "1";
  sample.lamps[2] = "1000";
  sample.gamma_deg.clear();
  sample.intensities.clear();
  for (int gamma = 0; gamma <= 90; ++gamma) {
    sample.gamma_deg.push_back(std::to_string(gamma));
    sample.intensities.push_back(std::to_string(1000 / std::numbers::pi * std::cos(gamma * std::numbers::pi / 180)));
  }
  CHECK(eulumdat_messages(sample.text()).empty());
  CHECK(lumens(eulumdat_file(sample.text()).distribution) == Approx(1000).epsilon(0).margin(0.05));
}

TEST_CASE("EULUMDAT: candelas are value, conversion factor and flux of the lamp set over 1000",
          "[photometry][formula]") {
  EulumdatSample sample;
  sample.line(24) = "0.5";
  sample.line(23) = "50";
  sample.lamps = {"2", "lamp", "2500", "", "", "30"};
  const auto file = eulumdat_file(sample.text());
  CHECK(eulumdat_messages(sample.text()).empty());
  CHECK(file.distribution.candela(0) == Approx(318.310 * 0.5 * 2500 / 1000).epsilon(1e-15));
  CHECK(lamps_of(file) == LampSet{.lamps = 2, .type = "lamp", .lumens = 2500, .watts = 30});
}

TEST_CASE("EULUMDAT: lines of text go by the LM-63 keyword of the same meaning", "[photometry][exact]") {
  using Keywords = std::vector<std::pair<std::string, std::string>>;
  CHECK(eulumdat_file(EulumdatSample{}.text()).keywords ==
        Keywords{{"MANUFAC", "Sample"}, {"TEST", "-"}, {"LUMCAT", "L1"}, {"ISSUEDATE", "2020-01-01"}, {"LAMP", "LED"}});

  EulumdatSample sample;
  sample.line(1) = "";
  sample.line(8) = "";
  sample.line(9) = " Can, 60\xB0 ";   // Windows-1252
  sample.line(10) = "K\xC3\xB6rper";  // UTF-8
  sample.line(11) = "can.ldt";
  sample.line(12) = "";
  sample.lamps[1] = "";
  CHECK(eulumdat_file(sample.text()).keywords ==
        Keywords{{"LUMINAIRE", "Can, 60\xC2\xB0"}, {"LUMCAT", "K\xC3\xB6rper"}, {"_FILENAME", "can.ldt"}});
}

TEST_CASE("EULUMDAT: sizes, with the length along C 90 and the width along C 0", "[photometry][formula]") {
  using Shape = Opening::Shape;
  struct Case {
    std::array<std::string, 9> lines;  // 13 to 21
    Opening opening;
    std::optional<Opening> housing;
  };
  const std::vector<Case> cases = {
      {{"0", "0", "0", "0", "0", "0", "0", "0", "0"}, {}, std::nullopt},
      {{"200", "0", "0", "150", "0", "0", "0", "0", "0"},
       {Shape::disc, 0.15, 0.15, 0},
       Opening{Shape::disc, 0.2, 0.2, 0}},
      {{"200", "0", "90", "150", "0", "1", "4", "3", "2"},
       {Shape::other, 0.15, 0.15, 0.004},
       Opening{Shape::other, 0.2, 0.2, 0.09}},
      {{"1200", "300", "0", "1100", "250", "0", "0", "0", "0"},
       {Shape::rectangle, 1.1, 0.25, 0},
       Opening{Shape::rectangle, 1.2, 0.3, 0}},
      {{"1200", "300", "60", "1100", "250", "0", "5", "0", "0"},
       {Shape::other, 1.1, 0.25, 0.005},
       Opening{Shape::other, 1.2, 0.3, 0.06}},
  };
  for (const auto& [lines, opening, housing] : cases) {
    EulumdatSample sample;
    for (int i = 0; i < 9; ++i) sample.line(13 + i) = lines[static_cast<std::size_t>(i)];
    CAPTURE(sample.text());
    CHECK(eulumdat_messages(sample.text()).empty());
    const auto file = eulumdat_file(sample.text());
    CHECK(file.opening == opening);
    CHECK(file.housing == housing);
  }
}

TEST_CASE("EULUMDAT: lamp sets in both orders of their lines, and the choice among them", "[photometry][exact]") {
  const std::vector<LampSet> expected = {
      {.lamps = 1, .type = "LED", .lumens = 2000, .colour = "3000", .rendering = "80", .watts = 20},
      {.lamps = 2, .type = "tube", .lumens = 5000, .colour = "4000", .rendering = "1B", .watts = 72.5},
      {.lamps = 3, .type = "36", .lumens = 6000, .colour = "warm", .rendering = ">90"}};
  for (const bool by_field : {true, false}) {
    CAPTURE(by_field);
    const std::string text = with_sets(k_sets, by_field).text();
    for (int set = 1; set <= 3; ++set) {
      CHECK(eulumdat_messages(text, set).empty());
      const auto file = eulumdat_file(text, set);
      CHECK(file.lamp_sets == expected);
      CHECK(file.lamp_set == static_cast<std::size_t>(set - 1));
      CHECK(keyword(file, "LAMP") == expected[file.lamp_set].type);
      CHECK(file.distribution.candela(0) == Approx(318.310 * *lamps_of(file).lumens / 1000).epsilon(1e-15));
    }
  }
}

TEST_CASE("EULUMDAT: numbers tell the order of lamp lines where the types are numbers too", "[photometry][exact]") {
  // Set after set, and the second line a number: only this order has a flux and a power in every set.
  const std::vector<Lines> numeric_types = {{"1", "36", "2000", "warm", "1B", "20"},
                                            {"2", "58", "5000", "cool", "2A", ""}};
  for (const bool by_field : {true, false}) {
    CAPTURE(by_field);
    const auto file = eulumdat_file(with_sets(numeric_types, by_field).text(), 2);
    CHECK(file.lamp_sets[0].type == "36");
    CHECK(file.lamp_sets[0].lumens == 2000);
    CHECK(file.lamp_sets[1].colour == "cool");
    CHECK(lamps_of(file).lumens == 5000);
  }
  // All twelve lines numbers: read by field.
  const std::vector<Lines> numbers = {{"1", "36", "2000", "3000", "80", "20"}, {"2", "58", "5000", "4000", "90", "50"}};
  CHECK(eulumdat_file(with_sets(numbers, true).text()).lamp_sets[1].type == "58");
}

TEST_CASE("EULUMDAT: line ends of every system, blanks, and what DOS programs leave at the end",
          "[photometry][property]") {
  const std::string text = EulumdatSample{}.text();
  const auto expected = eulumdat_file(text);
  for (const std::string end : {"\n", "\r", "\r\n", " \t\r\n", "\n \t"}) {
    CAPTURE(end);
    CHECK(eulumdat_messages(with_line_ends(text, end)).empty());
    CHECK(eulumdat_file(with_line_ends(text, end)) == expected);
  }
  const std::string marked = "\xEF\xBB\xBF" + text + "\r\n\r\n\x1A" + std::string(5, '\0');
  CHECK(eulumdat_messages(marked).empty());
  CHECK(eulumdat_file(marked) == expected);
}

TEST_CASE("EULUMDAT: the ways to write a number", "[photometry][exact]") {
  EulumdatSample sample;
  sample.line(3) = "1.0";
  sample.line(6) = "7,0000001";
  sample.line(7) = "15,0";
  sample.lamps[2] = "3141,6";
  sample.intensities[0] = "+318,310";
  sample.intensities[1] = "3.07464E+2";
  sample.intensities[6] = "-0.";
  CHECK(eulumdat_messages(sample.text()).empty());
  CHECK(eulumdat_file(sample.text()).distribution == eulumdat_file(EulumdatSample{}.text()).distribution);
}

TEST_CASE("EULUMDAT: the way in which numbers are spread over lines changes nothing but the remarks",
          "[photometry][exact]") {
  const auto expected = eulumdat_file(EulumdatSample{}.text()).distribution;
  EulumdatSample crowded;
  crowded.direct_ratios = {"0 0 0 0 0\t0 0 0 0 0"};
  crowded.gamma_deg = {"0 15 30 45\t60  75 90"};
  crowded.intensities = {"318.310 307.464 275.665", "225.079 159.155 82.385 0"};
  CHECK(eulumdat_file(crowded.text()).distribution == expected);
  EulumdatSample spread;
  for (auto& line : spread.intensities) line += "\r\n\r\n";
  CHECK(eulumdat_file(spread.text()).distribution == expected);
}

TEST_CASE("EULUMDAT: descending vertical angles give the same light", "[photometry][exact]") {
  EulumdatSample sample;
  std::reverse(sample.gamma_deg.begin(), sample.gamma_deg.end());
  std::reverse(sample.intensities.begin(), sample.intensities.end());
  CHECK(eulumdat_file(sample.text()).distribution == eulumdat_file(EulumdatSample{}.text()).distribution);
}

TEST_CASE("EULUMDAT is told from other texts by its first lines", "[photometry][exact]") {
  const std::string text = EulumdatSample{}.text();
  CHECK(is_eulumdat(text));
  CHECK(is_eulumdat("\xEF\xBB\xBF" + text));
  CHECK(is_eulumdat(with_line_ends(text, "\r")));
  CHECK(is_eulumdat(text.substr(0, text.find("15\r\n"))));
  CHECK(is_eulumdat("\n3\n4\n24"));

  const auto damaged = [](auto change) { return is_eulumdat(eulumdat_with(change)); };
  CHECK(damaged([](auto& s) { s.header.erase(s.header.begin()); }));
  CHECK(damaged([](auto& s) { s.header.insert(s.header.begin(), "one more"); }));
  CHECK(damaged([](auto& s) { s.header.insert(s.header.begin(), {"two", "more"}); }));
  CHECK(damaged([](auto& s) { s.line(3) = "x"; }));
  CHECK(damaged([](auto& s) { s.line(3) = "7"; }));
  CHECK(damaged([](auto& s) { s.line(4) = "-3"; }));
  CHECK(damaged([](auto& s) { s.line(4) = "1e30"; }));
  CHECK(damaged([](auto& s) { s.line(2) = s.line(6) = "?"; }));

  CHECK_FALSE(is_eulumdat(""));
  CHECK_FALSE(is_eulumdat("Sample"));
  CHECK_FALSE(is_eulumdat("Sample\n1\n4\n"));
  CHECK_FALSE(is_eulumdat("IESNA:LM-63-2002\n[TEST] 1\nTILT=NONE\n1 -1 1 3 1 1 2 0 0 0\n1 1 10\n0 45 90\n0\n9 5 0\n"));
  CHECK_FALSE(is_eulumdat("a can\n1\n4\n24\nTILT=NONE\n1 -1 1\n"));
  CHECK_FALSE(is_eulumdat(std::string("S\0\n1\n4\n24\n", 11)));
  std::string prose, numbers, table;
  for (int i = 0; i < 100; ++i) {
    prose += "Once there was a lamp\n";
    numbers += std::to_string(i * 7 % 50) + "\n";
    table += "1, 2, 3\n";
  }
  CHECK_FALSE(is_eulumdat(prose));
  CHECK_FALSE(is_eulumdat(numbers));
  CHECK_FALSE(is_eulumdat(table));
}
