#include "evenlit/photometry/lm63.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "lm63_sample.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

/// The same file with every `\n` as another line end.
std::string with_line_ends(const std::string& text, const std::string& end) {
  std::string other;
  for (const char c : text) other += c == '\n' ? end : std::string(1, c);
  return other;
}

const std::string k_disc =
    "IESNA:LM-63-2002\n"
    "[TEST] SAMPLE-1\n"
    "[TESTLAB] none\n"
    "[ISSUEDATE] 01-JAN-2020\n"
    "[MANUFAC] none\n"
    "TILT=NONE\n"
    "1 -1 1.0 7 1 1 2 -0.2 -0.2 0\n"
    "1.0 1.0 10\n"
    "0 15 30 45 60 75 90\n"
    "0\n"
    "1000 965.926 866.025 707.107 500 258.819 0\n";

}  // namespace

TEST_CASE("LM-63: a rotational table of absolute photometry", "[photometry][formula]") {
  const auto file = file_of(k_disc);
  CHECK(messages_of(k_disc).empty());
  CHECK(file.format == "LM-63-2002");
  CHECK(file.keywords ==
        std::vector<std::pair<std::string, std::string>>{
            {"TEST", "SAMPLE-1"}, {"TESTLAB", "none"}, {"ISSUEDATE", "01-JAN-2020"}, {"MANUFAC", "none"}});
  CHECK(lamps_of(file).lamps == 1);
  CHECK_FALSE(lamps_of(file).lumens.has_value());
  CHECK(lamps_of(file).watts == 10);
  CHECK(file.opening == Opening{Opening::Shape::disc, 0.2, 0.2, 0});
  CHECK(is_rotational(file.distribution));
  CHECK(file.distribution.gamma_deg == std::vector<double>{0, 15, 30, 45, 60, 75, 90});
  // Mean of each two neighbours times the zone's solid angle: 3141.59 lm for 1000 cos(g), to the rounding of the table.
  double zonal_lm = 0;
  for (Eigen::Index i = 1; i < 7; ++i) {
    const double cos_before = std::cos(file.distribution.gamma_deg[i - 1] * std::numbers::pi / 180);
    const double cos_after = std::cos(file.distribution.gamma_deg[i] * std::numbers::pi / 180);
    zonal_lm +=
        (file.distribution.candela(i - 1) + file.distribution.candela(i)) * std::numbers::pi * (cos_before - cos_after);
  }
  CHECK(zonal_lm == Approx(3141.59).epsilon(0).margin(0.005));
}

TEST_CASE("LM-63: the line ends of every system, tabs and wrapped records give the same file",
          "[photometry][property]") {
  const auto expected = file_of(k_disc).distribution;
  for (const std::string end : {"\r\n", "\r", "\n\n", " \t\n"}) {
    CAPTURE(end);
    CHECK(messages_of(with_line_ends(k_disc, end)).empty());
    CHECK(file_of(with_line_ends(k_disc, end)).distribution == expected);
  }
  std::string one_line = k_disc;
  const auto numbers = one_line.begin() + static_cast<std::ptrdiff_t>(one_line.find("1 -1"));
  std::replace(numbers, one_line.end(), '\n', ' ');
  CHECK(file_of(one_line).distribution == expected);
  std::replace(numbers, one_line.end(), ' ', '\n');
  CHECK(file_of(one_line).distribution == expected);
  std::replace(numbers, one_line.end(), '\n', ',');
  CHECK(file_of(one_line).distribution == expected);
}

TEST_CASE("LM-63: a byte-order mark, and zero bytes, Ctrl-Z and blanks at the end are passed over",
          "[photometry][exact]") {
  const std::string text = "\xEF\xBB\xBF" + k_disc + "\x1A \r\n" + std::string(5, '\0');
  CHECK(messages_of(text).empty());
  CHECK(file_of(text).distribution == file_of(k_disc).distribution);
}

TEST_CASE("LM-63: the ways to write a number", "[photometry][exact]") {
  Sample sample;
  sample.lamps = "+1 -1. 1e0";
  sample.counts = "3.0 1.0000001";
  sample.candela = "1.0E+3 .7e3 0.";
  CHECK(messages_of(sample.text()).empty());
  CHECK((file_of(sample.text()).distribution.candela == file_of(Sample{}.text()).distribution.candela).all());

  sample.candela = "1D3 7.0d+2 0";
  CHECK((file_of(sample.text()).distribution.candela == file_of(Sample{}.text()).distribution.candela).all());
}

TEST_CASE("LM-63: decimal commas give the values that points give", "[photometry][exact]") {
  Sample points, commas;
  points.candela = "1000.5 700.25 0.5";
  commas.candela = "1000,5 700,25 0,5";
  CHECK(file_of(commas.text()).distribution == file_of(points.text()).distribution);
}

TEST_CASE("LM-63: which factors multiply the candelas in which version", "[photometry][formula]") {
  // LM-63-1986: the number after the ballast factor is the ballast-lamp photometric factor. From 1995 on it is
  // reserved, from 2019 on the file generation type: no factor. Lamps and lumens per lamp never are.
  struct Case {
    std::string version, format;
    double factor;
  };
  for (const auto& [version, format, factor] :
       {Case{"", "LM-63-1991", 2 * 0.5 * 0.8}, Case{"IESNA91\n", "LM-63-1991", 2 * 0.5 * 0.8},
        Case{"IESNA86\n", "LM-63-1986", 2 * 0.5 * 0.8}, Case{"IESNA:LM-63-1995\n", "LM-63-1995", 2 * 0.5},
        Case{"IESNA:LM-63-2002\n", "LM-63-2002", 2 * 0.5}, Case{"IES:LM-63-2019\n", "LM-63-2019", 2 * 0.5}}) {
    CAPTURE(version);
    Sample sample;
    sample.version = version;
    sample.lamps = "3 1100 2";
    sample.factors = "0.5 0.8 10";
    const auto file = file_of(sample.text());
    CHECK(file.format == format);
    CHECK(lamps_of(file).lamps == 3);
    CHECK(lamps_of(file).lumens == 3300);
    CHECK(file.distribution.candela(0) == 1000 * factor);
    CHECK(file.distribution.candela(1) == 700 * factor);
  }
}

TEST_CASE("LM-63: every file generation type of 2019 is known and none is a factor", "[photometry][published]") {
  // LM-63-19, 5.13, table 2.
  for (const std::string type :
       {"1.00001", "1.00010", "1.00000", "1.00100", "1.01000", "1.01100", "1.10000", "1.10100", "1.11000", "1.11100"}) {
    CAPTURE(type);
    Sample sample;
    sample.version = "IES:LM-63-2019\n";
    sample.factors = "1 " + type + " 10";
    CHECK(messages_of(sample.text()).empty());
    CHECK(file_of(sample.text()).distribution.candela(0) == 1000);
  }
}

TEST_CASE("LM-63: keywords keep their order, [MORE] goes on with the line before", "[photometry][exact]") {
  Sample sample;
  sample.keywords =
      "[TEST] 1\n[MORE] of a series\n[TESTLAB]none\n\n[ISSUEDATE]\n[manufac] none\n[_OWN] x\na line\n"
      "[OTHER] 10 \xB5m\n[OTHER] 20 \xC2\xB5m\n[LAMP\n";
  CHECK(file_of(sample.text()).keywords == std::vector<std::pair<std::string, std::string>>{{"TEST", "1 of a series"},
                                                                                            {"TESTLAB", "none"},
                                                                                            {"ISSUEDATE", ""},
                                                                                            {"MANUFAC", "none"},
                                                                                            {"_OWN", "x"},
                                                                                            {"", "a line"},
                                                                                            {"OTHER", "10 \u00b5m"},
                                                                                            {"OTHER", "20 \u00b5m"},
                                                                                            {"", "[LAMP"}});
}

TEST_CASE("LM-63: Windows-1252 beyond Latin-1 becomes UTF-8", "[photometry][published]") {
  Sample sample;
  sample.keywords = "[TEST] \x80 \x93quoted\x94 \x99 \x81 \xFF\n";
  CHECK(file_of(sample.text()).keywords.front().second == "\u20ac \u201cquoted\u201d \u2122 \ufffd \u00ff");
}

TEST_CASE("LM-63: the free lines of 1986 come without a keyword", "[photometry][exact]") {
  Sample sample;
  sample.version = "";
  sample.keywords = "REPORT 1\nA CAN\n";
  const auto file = file_of(sample.text());
  CHECK(file.format == "LM-63-1986");
  CHECK(file.keywords == std::vector<std::pair<std::string, std::string>>{{"", "REPORT 1"}, {"", "A CAN"}});
}

TEST_CASE("LM-63: watts that the file does not know are absent", "[photometry][exact]") {
  Sample sample;
  sample.factors = "1 1 0";
  CHECK_FALSE(lamps_of(file_of(sample.text())).watts.has_value());
  sample.factors = "1 1 -3";
  CHECK_FALSE(lamps_of(file_of(sample.text())).watts.has_value());
  sample.factors = "1 1 12.5";
  CHECK(lamps_of(file_of(sample.text())).watts == 12.5);
}

TEST_CASE("LM-63: vertical angles are put right with their candelas", "[photometry][exact]") {
  Sample sample;
  const auto expected = file_of(sample.text()).distribution;
  sample.vertical = "90 45 0";
  sample.candela = "0 700 1000";
  CHECK(file_of(sample.text()).distribution == expected);
  sample.vertical = "0.04 45 89.96";
  sample.candela = "1000 700 0";
  CHECK(file_of(sample.text()).distribution == expected);
  sample.counts = "4 1";
  sample.vertical = "0 45 45 90";
  sample.candela = "1000 700 700 0";
  CHECK(file_of(sample.text()).distribution == expected);
}

TEST_CASE("LM-63: end candelas are held over a gap of one step, and no further", "[photometry][exact]") {
  Sample sample;
  sample.vertical = "20 40 60";
  const auto held = file_of(sample.text()).distribution;
  CHECK(held.gamma_deg == std::vector<double>{0, 20, 40, 60});
  CHECK(intensity_at(held, 5, 0) == 1000);
  CHECK(intensity_at(held, 60.5, 0) == 0);

  sample.vertical = "92.5 95 180";
  const auto up = file_of(sample.text()).distribution;
  CHECK(up.gamma_deg == std::vector<double>{90, 92.5, 95, 180});
  CHECK(intensity_at(up, 90, 0) == 1000);
  CHECK(intensity_at(up, 89.9, 0) == 0);
}

TEST_CASE("LM-63: slightly negative candelas become 0", "[photometry][exact]") {
  Sample sample;
  sample.candela = "1000 -2 -1";
  CHECK(file_of(sample.text()).distribution.candela.minCoeff() == 0);
}
