#include "evenlit/drawing/luminance_view.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "drawing/sheet_checks.hpp"
#include "evenlit/drawing/rasterise.hpp"
#include "view/pictures.hpp"

using namespace evenlit;

namespace {

LuminanceScale scale_of(const LuminancePicture& picture) { return luminance_scale({&picture, 1}); }

}  // namespace

TEST_CASE("a scale of luminances ends at round values around them", "[drawing][exact]") {
  LuminancePicture picture = sample::plain(10, 10, 30);
  for (auto& channel : picture.rgb_cd_m2) channel.head(50).setConstant(0.7F);
  CHECK(scale_of(picture).bottom_cd_m2 == Approx(0.5).epsilon(1e-12));
  CHECK(scale_of(picture).top_cd_m2 == Approx(50).epsilon(1e-12));
}

TEST_CASE("a scale of luminances holds those of any picture, over one power of ten to three and a little",
          "[drawing][property]") {
  for (const float cd_m2 : {0.0F, 1e-12F, 0.02F, 1.0F, 19.0F, 7e5F, 1e9F}) {
    for (const float other : {0.0F, 0.3F, 1e9F}) {
      LuminancePicture picture = sample::plain(10, 10, cd_m2);
      for (auto& channel : picture.rgb_cd_m2) channel.head(50).setConstant(other);
      const auto [bottom, top] = scale_of(picture);
      CHECK(bottom > 0);
      CHECK(top >= 0.998 * std::max(cd_m2, other));  // luminance_range's 0.2 %
      CHECK(top / bottom >= 10 * (1 - 1e-9));
      CHECK(top / bottom <= 2500 * (1 + 1e-9));  // three powers, and down to the next round value
    }
  }
}

TEST_CASE("a view of luminances: equal ratios are equal steps of colour", "[drawing][exact]") {
  LuminancePicture picture = sample::plain(5, 1, 0);
  for (auto& channel : picture.rgb_cd_m2) channel << 0, 1, 10, 100, 1e9F;
  const Drawing drawing = luminance_view(picture, {1, 100}, "Den");
  const FalseColour painted = sample::all_of_kind<FalseColour>(drawing).front();
  REQUIRE(painted.field.values.size() == 5);
  const double share[] = {0, 0, 0.5, 1, 1};
  for (std::size_t i = 0; i < 5; ++i) {
    const double at = (painted.field.values[i] - painted.bottom) / (painted.top - painted.bottom);
    CHECK(at == Approx(share[i]).margin(1e-6));  // single precision of the picture
  }
  CHECK(sample::says(drawing, "Den"));
  CHECK(sample::says(drawing, "cd/m²"));
  for (const char* value : {"1", "10", "100"}) CHECK(sample::says(drawing, value));
}

TEST_CASE("a view of luminances keeps to its sheet, upright as the picture is", "[drawing][property]") {
  LuminancePicture picture = sample::room(300);
  const auto [bottom, top] = scale_of(picture);
  const Drawing drawing = luminance_view(picture, {bottom, top}, std::string(200, 'W'));
  sample::check_sheet(drawing, 18);
  CHECK(drawing.width == 1200);
  const Polyline clip = sample::all_of_kind<FalseColour>(drawing).front().clip.front();
  CHECK((clip[2] - clip[0]).x() / (clip[2] - clip[0]).y() == Approx(160.0 / 90));

  for (auto& channel : picture.rgb_cd_m2) channel.head(160 * 45).setConstant(static_cast<float>(top));
  for (auto& channel : picture.rgb_cd_m2) channel.tail(160 * 45).setConstant(static_cast<float>(bottom));
  const Image image = rasterise(luminance_view(picture, {bottom, top}, "Den"), 1200);
  const int x = static_cast<int>(clip[0].x()) + 300;
  CHECK(image.at(x, static_cast<int>(clip[0].y()) + 20) == k_cividis.back());
  CHECK(image.at(x, static_cast<int>(clip[2].y()) - 20) == k_cividis.front());
}

TEST_CASE("darkness and glare have a view of luminances", "[drawing][property]") {
  for (const float cd_m2 : {0.0F, 1e-12F, 1e9F, -1.0F}) {
    const LuminancePicture picture = sample::plain(3, 2, cd_m2);
    sample::check_sheet(luminance_view(picture, scale_of(picture), "Den"), 18);
  }
}
