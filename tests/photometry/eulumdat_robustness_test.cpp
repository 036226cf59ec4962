#include <catch2/catch.hpp>
#include <random>

#include "damaged_files.hpp"
#include "eulumdat_sample.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

/// A file that uses most of what the reader knows.
std::string rich_file() {
  auto sample = eulumdat_planes(3, {0, 45, 90, 135, 180, 225, 270, 315}, [](double c) { return 200 + c / 10; });
  sample.line(9) = "Can, 60\xB0";
  sample.line(13) = "200 mm";
  sample.line(24) = "0,5";
  sample.line(26) = std::to_string(2);  // from "2", g++ 12 warns of impossible lengths
  sample.lamps = {"1", "lamp", "1000", "3000", "80", "10", "2", "other", "1500", "warm", "1B", ""};
  sample.intensities[4] = "-0,1";
  sample.rest = "end\r\n";
  return sample.text();
}

/// Either sound light, in planes around the vertical, or a reason. Returns whether it was read.
bool gives_light_or_a_reason(const std::string& bytes) {
  is_eulumdat(bytes);
  const auto read = read_eulumdat(bytes, "can.ldt");
  if (read) REQUIRE(is_type_c(read->value.distribution));
  return is_light_or_a_reason(read, bytes);
}

}  // namespace

TEST_CASE("EULUMDAT: a file cut off anywhere before its last number is refused", "[photometry][property]") {
  const std::string whole = rich_file();
  REQUIRE(gives_light_or_a_reason(whole));
  const std::size_t last_number = whole.rfind("0\r\nend");
  for (std::size_t size = 0; size < whole.size(); ++size) {
    CAPTURE(size);
    const bool is_read = gives_light_or_a_reason(whole.substr(0, size));
    CHECK(is_read == (size > last_number));
  }
}

TEST_CASE("EULUMDAT: damaged bytes never give damaged light", "[photometry][property]") {
  const std::string whole = rich_file();
  std::mt19937 random(1990);
  int read = 0;
  for (int round = 0; round < 10000; ++round) {
    const std::string bytes = damaged(whole, random);
    CAPTURE(round);
    if (gives_light_or_a_reason(bytes)) ++read;
  }
  // Both ways are taken: damage in the words is read over, damage in the numbers is found.
  CHECK(read > 500);
  CHECK(read < 9500);
}

TEST_CASE("EULUMDAT: lines left out, doubled and exchanged", "[photometry][property]") {
  std::mt19937 random(90);
  std::vector<std::string> lines;
  const std::string whole = rich_file();
  for (std::size_t begin = 0; begin < whole.size();) {
    const std::size_t end = whole.find("\r\n", begin) + 2;
    lines.push_back(whole.substr(begin, end - begin));
    begin = end;
  }
  for (int round = 0; round < 5000; ++round) {
    auto changed = lines;
    for (unsigned change = 0; change <= random() % 3; ++change) {
      const auto at = static_cast<std::ptrdiff_t>(random() % changed.size());
      const std::string other = lines[random() % lines.size()];
      const auto kind = random() % 3;
      if (kind == 0) changed.erase(changed.begin() + at);
      if (kind == 1) changed.insert(changed.begin() + at, other);
      if (kind == 2) changed[static_cast<std::size_t>(at)] = other;
    }
    std::string bytes;
    for (const auto& line : changed) bytes += line;
    CAPTURE(round);
    gives_light_or_a_reason(bytes);
  }
}

TEST_CASE("EULUMDAT: declared counts take no memory that the file does not fill", "[photometry][property]") {
  // 2000 x 2000 intensities are allowed and would take 32 MB; the file has twelve.
  const auto declared = [](const std::string& planes, const std::string& verticals) {
    auto sample = eulumdat_planes(0, {0, 90, 180, 270}, [](double) { return 212; });
    sample.line(4) = planes;
    sample.line(6) = verticals;
    return eulumdat_messages(sample.text());
  };
  CHECK(declared("2000", "2000") ==
        "refused:\n"
        "can.ldt:61:2: expected 2000 C angles, the file ends after 19\n"
        "hint: check the declared numbers of angles, and that the file is complete\n");
  CHECK(declared("5000", "5000") ==
        "refused:\n"
        "can.ldt:4:1: number of C planes 5000 makes a table of 5000 x 5000 intensities, above the limit of 4000000\n");
  CHECK(declared("20000", "1e5") ==
        "refused:\n"
        "can.ldt:4:1: number of C planes 20000 is above 10000\n"
        "can.ldt:6:1: number of vertical angles 100000 is above 10000\n");
  CHECK(declared("999999999999", "1e308") ==
        "refused:\n"
        "can.ldt:4:1: number of C planes 999999999999 is out of range\n"
        "can.ldt:6:1: number of vertical angles 1e+308 is out of range\n");
}
