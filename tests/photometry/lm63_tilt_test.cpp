#include <catch2/catch.hpp>

#include "lm63_sample.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

PhotometricFile with_tilt(const std::string& data) {
  Sample sample;
  sample.tilt = "TILT=INCLUDE\n" + data;
  return file_of(sample.text());
}

Sample with_tilt_file() {
  Sample sample;
  sample.tilt = "TILT=Lamp One.TLT\n";
  return sample;
}

}  // namespace

// IES LM-63-1986: pairs of the luminaire's tilt and a factor of all candelas; between them by straight lines.
TEST_CASE("LM-63: tilt data leave the table as it is and give a factor for every aim", "[photometry][formula]") {
  const PhotometricFile file = with_tilt("1\n3\n0 45 90\n0.9 0.5 0.6\n");
  CHECK(file.tilt == TiltData{1, {0, 45, 90}, {0.9, 0.5, 0.6}});
  CHECK(file.distribution.candela(0) == 1000);
  CHECK(tilt_factor(file, 0) == 0.9);
  CHECK(tilt_factor(file, 22.5) == Approx(0.7).epsilon(1e-15));
  CHECK(tilt_factor(file, 90) == 0.6);
  CHECK(tilt_factor(file, 135) == Approx(0.5).epsilon(1e-15));  // data to 90: counted back from 180
  CHECK(tilt_factor(with_tilt("1\n2\n0 180\n1 0\n"), 135) == Approx(0.25).epsilon(1e-15));
  CHECK(tilt_factor(with_tilt("3\n1\n45\n0.8\n"), 10) == 0.8);
  CHECK(tilt_factor(file_of(Sample{}.text()), 50) == 1);
}

TEST_CASE("LM-63: tilt data in a file of their own come from the same folder", "[photometry][exact]") {
  std::string asked;
  const Neighbour neighbour = [&](std::string_view name) -> std::optional<std::string> {
    asked = name;
    return "1\n2\n0 90\n1 0.75\n";
  };
  const auto read = read_lm63(with_tilt_file().text(), "cans/can.ies", neighbour);
  REQUIRE(read);
  CHECK(asked == "Lamp One.TLT");
  CHECK(text_of(read->warnings) == "");
  CHECK(read->value.tilt == TiltData{1, {0, 90}, {1, 0.75}});
}

TEST_CASE("LM-63: what is wrong in a tilt file is told at its place there", "[photometry][exact]") {
  const auto messages = [](const std::string& tilt_file) {
    const auto read = read_lm63(with_tilt_file().text(), "cans/can.ies", [&](std::string_view) { return tilt_file; });
    return read ? text_of(read->warnings) : text_of(read.error());
  };
  CHECK(messages("1\n2\n0 x\n1 1\n") == "cans/Lamp One.TLT:3:3: \"x\" is not a number (reading tilt angles)\n");
  CHECK(messages("") == "cans/Lamp One.TLT: file is empty\n");
  CHECK(messages("9\n1\n0\n1\n") ==
        "cans/Lamp One.TLT:1:1: lamp-to-luminaire geometry 9 is unknown, read as 1\n"
        "hint: write 1, 2 or 3\n");
}
