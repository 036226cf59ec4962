#include <catch2/catch.hpp>
#include <random>

#include "damaged_files.hpp"
#include "lm63_sample.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

/// A file that uses most of what the reader knows.
std::string rich_file() {
  Sample sample;
  sample.keywords += "[LAMP] 10 \xB5m\n[MORE] and more\n";
  sample.tilt = "TILT=INCLUDE\n1\n2\n0 90\n1 0.7\n";
  sample.lamps = "1 2000 1.5";
  sample.counts = "4 3";
  sample.opening = "-0.15 -0.15 0";
  sample.vertical = "0 30 60 90";
  sample.horizontal = "0 45 90";
  sample.candela = "1000 700 200 0\n1000 750 180 1e-3\n1000 800, 160 -1";
  return sample.text();
}

/// Either sound light or a reason. Returns whether it was read.
bool gives_light_or_a_reason(const std::string& bytes) {
  const auto read = read_lm63(bytes, "can.ies");
  if (read) {
    // Damage may turn type C into another code, whose planes need not close.
    const auto& d = read->value.distribution;
    REQUIRE((d.c_deg.size() == 1 || is_type_c(d) || (d.c_deg.front() >= -180 && d.c_deg.back() <= 180)));
  }
  return is_light_or_a_reason(read, bytes);
}

}  // namespace

TEST_CASE("LM-63: a file cut off anywhere before its last number is refused", "[photometry][property]") {
  const std::string whole = rich_file();
  REQUIRE(gives_light_or_a_reason(whole));
  const std::size_t last_number = whole.rfind("-1");
  for (std::size_t size = 0; size < whole.size(); ++size) {
    CAPTURE(size);
    const bool is_read = gives_light_or_a_reason(whole.substr(0, size));
    if (size <= last_number) CHECK_FALSE(is_read);
  }
}

TEST_CASE("LM-63: damaged bytes never give damaged light", "[photometry][property]") {
  const std::string whole = rich_file();
  std::mt19937 random(63);
  int read = 0;
  for (int round = 0; round < 20000; ++round) {
    const std::string bytes = damaged(whole, random);
    CAPTURE(round);
    if (gives_light_or_a_reason(bytes)) ++read;
  }
  // Both ways are taken: damage in the words is read over, damage in the numbers is found.
  CHECK(read > 1000);
  CHECK(read < 19000);
}

TEST_CASE("LM-63: pieces of files put together at random", "[photometry][property]") {
  const std::vector<std::string> pieces = {"IESNA:LM-63-2002\n",
                                           "[TEST] 1\n",
                                           "[MORE]",
                                           "TILT=NONE\n",
                                           "TILT=INCLUDE\n",
                                           "1 ",
                                           "-1 ",
                                           "2 ",
                                           "3 ",
                                           "0 ",
                                           "90 ",
                                           "180 ",
                                           "360 ",
                                           "1e9 ",
                                           "1e-300 ",
                                           "0.5 ",
                                           "1,5 ",
                                           "\n",
                                           "\r",
                                           "\xA0",
                                           "\xE2\x88\x92",
                                           "1D2 ",
                                           "NaN ",
                                           ",,"};
  std::mt19937 random(2002);
  for (int round = 0; round < 20000; ++round) {
    std::string bytes = "TILT=NONE\n";
    const auto count = random() % 30;
    for (unsigned i = 0; i < count; ++i) bytes += pieces[random() % pieces.size()];
    CAPTURE(bytes);
    gives_light_or_a_reason(bytes);
  }
}

TEST_CASE("LM-63: declared counts take no memory that the file does not fill", "[photometry][property]") {
  // 2000 x 2000 values are allowed and would take 32 MB; the file has three.
  Sample sample;
  sample.counts = "2000 2000";
  CHECK(messages_of(sample.text()) ==
        "refused:\n"
        "can.ies:11:11: expected 2000 vertical angles, the file ends after 7\n"
        "hint: check the declared numbers of angles, and that the file is complete\n");
  sample.counts = "999999999999999 1";
  CHECK(messages_of(sample.text()) ==
        "refused:\n"
        "can.ies:7:8: number of vertical angles 999999999999999 is out of range\n");
  sample.counts = "3 1e308";
  CHECK(messages_of(sample.text()) ==
        "refused:\n"
        "can.ies:7:10: number of horizontal angles 1e+308 is out of range\n");
}
