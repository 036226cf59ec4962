#include "evenlit/photometry/read_photometric_file.hpp"

#include <catch2/catch.hpp>

#include "evenlit/photometry/synthetic.hpp"
#include "evenlit/photometry/write_photometric_file.hpp"
#include "lm63_sample.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

std::string bytes_in(PhotometricFormat format) {
  return photometric_bytes(synthetic_file({.lumens = 700, .beam_angle_deg = 50}).value(), format).value;
}

std::string messages(const std::string& bytes, const std::string& name, const PhotometricReading& reading = {}) {
  const auto read = read_photometric_file(bytes, name, reading);
  return read ? text_of(read->warnings) : "refused:\n" + text_of(read.error());
}

}  // namespace

TEST_CASE("the content decides which format a file is read as", "[photometry][exact]") {
  CHECK(messages(bytes_in(PhotometricFormat::eulumdat), "can.ldt") == "");
  CHECK(messages(bytes_in(PhotometricFormat::lm63_2019), "can.ies") == "");
  CHECK(messages(bytes_in(PhotometricFormat::lm63_2019), "can.txt") == "");
  CHECK(messages(bytes_in(PhotometricFormat::eulumdat), "can.IES") ==
        "can.IES: in spite of its name this is an EULUMDAT file\n");
  CHECK(messages(bytes_in(PhotometricFormat::lm63_2002), "can.ldt") ==
        "can.ldt: in spite of its name this is an LM-63 file\n");
  CHECK(messages("hello\nworld\n", "can.ldt") ==
        "refused:\n"
        "can.ldt: no TILT= line\n"
        "hint: not an LM-63 file, or a damaged one\n");
}

TEST_CASE("strict reading turns every warning into an error", "[photometry][exact]") {
  Sample sample;
  sample.tilt = "tilt=none\n";
  const std::string warning = "can.ies:6:1: \"tilt=none\" read as TILT=NONE\n";
  CHECK(messages(sample.text(), "can.ies") == warning);
  CHECK(messages(sample.text(), "can.ies", {.strict = true}) == "refused:\n" + warning);
  CHECK(messages(Sample{}.text(), "can.ies", {.strict = true}) == "");
}

TEST_CASE("an LM-63 file has one lamp set", "[photometry][exact]") {
  CHECK(messages(Sample{}.text(), "can.ies", {.lamp_set = 2}) ==
        "refused:\n"
        "can.ies: the file has no lamp set 2\n"
        "hint: an LM-63 file has one lamp set\n");
}

// The zero plane of EULUMDAT is a convention (across the luminaire, from memory): a quarter turn undoes it.
TEST_CASE("quarter turns carry the planes and the sizes along", "[photometry][formula]") {
  Sample sample;
  sample.opening = "0.3 1.2 0";
  sample.counts = "3 2";
  sample.horizontal = "0 90";
  sample.candela = "9 5 0 9 3 0";
  const auto plain = read_photometric_file(sample.text(), "can.ies").value().value;
  const auto turned = read_photometric_file(sample.text(), "can.ies", {.quarters = 1}).value().value;
  CHECK(turned.opening.width_m == 1.2);
  CHECK(turned.opening.length_m == 0.3);
  for (double c = 0; c < 360; c += 7) {
    for (double gamma = 0; gamma <= 90; gamma += 9) {
      CHECK(intensity_at(turned.distribution, gamma, c + 90) ==
            Approx(intensity_at(plain.distribution, gamma, c)).margin(1e-12));
    }
  }
}

TEST_CASE("four quarter turns are none", "[photometry][property]") {
  using Axis = IntensityDistribution::Axis;
  const Axis axis = GENERATE(Axis::vertical, Axis::along_c0, Axis::along_c90);
  const auto c_deg = GENERATE(std::vector<double>{0, 40, 200, 360}, std::vector<double>{-90, 0, 30, 90});
  IntensityDistribution d{{0, 40, 180}, c_deg, Eigen::ArrayXXd(3, 4)};
  d.axis = axis;
  d.candela << 9, 9, 9, 9, 1, 2, 3, 1, 4, 4, 4, 4;
  const IntensityDistribution quarter = turned(d, 1);
  const IntensityDistribution back = turned(turned(quarter, 1), -2);
  for (double gamma = 3; gamma < 180; gamma += 11) {
    for (double c = 1; c < 360; c += 17) {
      CHECK(intensity_at(quarter, gamma, c + 90) == Approx(intensity_at(d, gamma, c)).margin(1e-9));
      CHECK(intensity_at(turned(d, 2), gamma, c + 180) == Approx(intensity_at(d, gamma, c)).margin(1e-9));
      CHECK(intensity_at(back, gamma, c) == Approx(intensity_at(d, gamma, c)).margin(1e-9));
    }
  }
}
