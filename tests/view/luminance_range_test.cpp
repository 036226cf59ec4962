#include "evenlit/view/luminance_range.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "view/pictures.hpp"

using namespace evenlit;

namespace {

constexpr double k_promised = 0.002;  // half a bin

LuminanceRange range_of(const LuminancePicture& picture) { return luminance_range({&picture, 1}); }

}  // namespace

TEST_CASE("one luminance is the darkest, usual and brightest", "[view][exact]") {
  for (const float cd_m2 : {0.002F, 0.7F, 48.0F, 3e4F, 1e9F}) {
    const LuminanceRange range = range_of(sample::plain(20, 10, cd_m2));
    CHECK(range.darkest_cd_m2 == Approx(cd_m2).epsilon(k_promised));
    CHECK(range.usual_cd_m2 == Approx(cd_m2).epsilon(k_promised));
    CHECK(range.brightest_cd_m2 == Approx(cd_m2).epsilon(k_promised));
  }
}

TEST_CASE("the usual luminance is the logarithmic average", "[view][formula]") {
  LuminancePicture picture = sample::plain(100, 10, 20);
  double sum = 0;
  for (int i = 0; i < 1000; ++i) {
    const float cd_m2 = 5 + 0.02F * static_cast<float>(i % 990);  // the last hundredth is as dark as any
    for (auto& channel : picture.rgb_cd_m2) channel[i] = cd_m2;
    sum += std::log(cd_m2);
  }
  // Of 1000 pixels the 10 brightest, of up to 25 cd/m2, are left out, which lowers the average by 0.6 % of itself.
  CHECK(range_of(picture).usual_cd_m2 == Approx(std::exp(sum / 1000)).epsilon(0.008));
}

TEST_CASE("openings do not count", "[view][property]") {
  LuminancePicture picture = sample::plain(100, 10, 20);
  const LuminanceRange without = range_of(picture);
  for (auto& channel : picture.rgb_cd_m2) channel.head(9).setConstant(50'000);
  const LuminanceRange with = range_of(picture);
  CHECK(with.usual_cd_m2 == without.usual_cd_m2);
  CHECK(with.brightest_cd_m2 == without.brightest_cd_m2);
}

TEST_CASE("pictures together have the range of one with the pixels of all", "[view][property]") {
  std::vector<LuminancePicture> pictures{sample::room(300), sample::room(20)};
  LuminancePicture both{160, 180, {}};
  for (int channel = 0; channel < 3; ++channel) {
    both.rgb_cd_m2[channel].resize(160 * 180);
    both.rgb_cd_m2[channel] << pictures[0].rgb_cd_m2[channel], pictures[1].rgb_cd_m2[channel];
  }
  const LuminanceRange apart = luminance_range(pictures);
  const LuminanceRange joined = range_of(both);
  CHECK(apart.darkest_cd_m2 == joined.darkest_cd_m2);
  CHECK(apart.usual_cd_m2 == joined.usual_cd_m2);
  CHECK(apart.brightest_cd_m2 == joined.brightest_cd_m2);
}

TEST_CASE("darkness and no pictures at all have a range", "[view][exact]") {
  CHECK(luminance_range({}).usual_cd_m2 == k_darkest_cd_m2);
  CHECK(range_of(LuminancePicture{}).usual_cd_m2 == k_darkest_cd_m2);
  for (const float cd_m2 : {0.0F, 1e-12F}) {
    CHECK(range_of(sample::plain(4, 4, cd_m2)).usual_cd_m2 == Approx(k_darkest_cd_m2).epsilon(k_promised));
  }
}
